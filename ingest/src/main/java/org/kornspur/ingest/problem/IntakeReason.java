package org.kornspur.ingest.problem;

/** Why the intake refuses a value: one family for each matter. */
public sealed interface IntakeReason extends Reason
    permits ActProblem,
        CellProblem,
        CountProblem,
        FileProblem,
        GeoJsonProblem,
        HybridProblem,
        IdProblem,
        InputProblem,
        ListProblem,
        NumberProblem,
        OutlineProblem,
        RecordProblem,
        SubmissionProblem,
        TableProblem,
        TextProblem,
        TimeProblem,
        ValueProblem,
        WorkbookProblem {}
