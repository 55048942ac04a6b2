package org.kornspur.api.query.season;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.query.view.AsOf;

@Schema(description = "Seasons side by side, the latest first; of what the caller sees")
public record SeasonsView(
    @Schema(nullable = true, description = "Null where all hybrids were asked for") String hybridId,
    @Schema(nullable = true, description = "Line or hybrid; null where all were asked for")
        String seedId,
    @Schema(nullable = true, description = "Multiplier; null where all were asked for")
        String holder,
    List<SeasonView> lots,
    List<SeasonView> crops,
    List<Forecasts> forecasts,
    @Schema(
            description =
                "False while forecasts are being calculated, or where there are more results than"
                    + " are looked at, the first 500")
        boolean forecastsComplete,
    AsOf asOf) {

  @Schema(
      name = "SeasonForecasts",
      description = "Forecasts of hybridity beside what was found, of the crops of one season")
  public record Forecasts(
      @Schema(description = "Year of harvest", examples = "2025") int cropYear,
      @Schema(description = "Lots examined, once for each method") int results,
      @Schema(description = "Results that lie in the forecast interval") int inside,
      @Schema(description = "Part of the results that lies inside, with its exact interval")
          ShareView coverage,
      @Schema(description = "Mean of the forecasts, percent") double predictedPercent,
      @Schema(description = "Mean of the shares found, percent") double observedPercent) {}
}
