package org.kornspur.api.query.view;

import java.util.Map;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.standing.StandingState;

@Schema(description = "A hybrid that crops or lots are made of")
public record HybridView(
    @Schema(examples = "HYB-AURUM") String hybridId,
    @Schema(description = "Number of crops by state") Map<StandingState, Integer> crops,
    @Schema(description = "Number of lots by state") Map<StandingState, Integer> lots,
    String href) {}
