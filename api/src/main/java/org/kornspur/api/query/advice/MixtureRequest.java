package org.kornspur.api.query.advice;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.contract.ShareBasis;

@Schema(description = "A technical mixture that is wanted; what is left out is the breeder's")
public record MixtureRequest(
    @Schema(required = true, examples = "HYB-AURUM") String hybridId,
    @Schema(required = true, description = "Mass wanted, kilograms", examples = "1000")
        Double massKg,
    @Schema(description = "Share of pollinator aimed at, percent on the basis; else the breeder's")
        Double targetSharePercent,
    @Schema(
            description =
                "How far the share may lie off where the stock does not allow it, percentage points;"
                    + " else the breeder's, or 0 where a share is given")
        Double tolerancePercentPoints,
    @Schema(description = "What the share is a share of; else the breeder's basis")
        ShareBasis basis,
    @Schema(description = "Lots of the female, those to be used first in front; else all in stock")
        List<String> femaleLots,
    @Schema(description = "Lots of the pollinator, likewise") List<String> pollinatorLots) {}
