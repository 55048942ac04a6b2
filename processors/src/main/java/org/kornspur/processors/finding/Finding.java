package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Statement;

/**
 * What the judging can say, one family for each matter. Every kind has its words in the texts of
 * the api; a test names the one that has none.
 */
public sealed interface Finding extends Statement
    permits ActFinding,
        Advice,
        Aspect,
        BlendFinding,
        Bound,
        ComponentsFinding,
        CondemnationFinding,
        ContractFinding,
        CountFinding,
        Evidence,
        BasisFinding,
        GerminationFinding,
        GroundFinding,
        InspectionFinding,
        IsolationFinding,
        LotFinding,
        MarkerFinding,
        MoistureFinding,
        OffTypesFinding,
        OriginFinding,
        PlantsFinding,
        PostControlFinding,
        PurityFinding,
        Reference,
        ReleaseFinding,
        RuleFinding,
        SampleSizeFinding,
        SamplingFinding,
        SheddingFinding,
        SterilityFinding {}
