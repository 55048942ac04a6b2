package org.kornspur.api.problem;

import org.kornspur.ingest.statement.Statement;

/** What is wrong with a request as a whole, in a sentence: one family for each matter. */
public sealed interface Detail extends Statement
    permits AccessDetail,
        ActDetail,
        AddressDetail,
        BackupDetail,
        CropDetail,
        ExportDetail,
        NotReadyDetail,
        PeopleDetail,
        PlanDetail,
        RecordDetail {}
