package org.kornspur.processors.advice;

import org.kornspur.ingest.statement.Statement;

/** What advice says: one family for each matter. */
public sealed interface AdviceStatement extends Statement
    permits AdviceInput,
        ComparisonStatement,
        CountStatement,
        ForecastStatement,
        HeterogeneityStatement,
        InputSource,
        Missing,
        MixtureStatement,
        NickingStatement {}
