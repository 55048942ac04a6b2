package org.kornspur.api.problem;

import org.kornspur.ingest.problem.Reason;

/** Why a request is refused, beside what the intake finds: one family for each matter. */
public sealed interface RequestReason extends Reason
    permits AccountProblem,
        BodyProblem,
        DecisionProblem,
        EventProblem,
        HeaderProblem,
        ParameterProblem,
        RightsProblem,
        SigningProblem {}
