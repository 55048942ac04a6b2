package org.kornspur.api.query.advice;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.processors.advice.ForecastStatement;
import org.kornspur.processors.advice.PredictionAgainstTruth;

/** Forecasts beside results. */
@Schema(description = "Forecasts of hybridity beside what markers and plots found")
public record CalibrationView(
    @Schema(description = "Null where all hybrids were asked for") String hybridId,
    @Schema(description = "What it is and is not") String advice,
    @Schema(description = "One for each lot and method, by crop and lot") List<Point> rows,
    @Schema(description = "Rows whose observed share lies in the forecast interval") int inside,
    @Schema(
            description =
                "Part of the rows that lie inside, with its exact interval; hold it against the"
                    + " confidence of the forecasts. Null where there are no rows. Lots of one crop"
                    + " are not independent")
        ShareView coverage,
    @Schema(
            description =
                "Mean of observed less expected, percentage points; below 0 where forecasts are too"
                    + " high. Null where there are no rows")
        Double meanDifferencePercentPoints,
    @Schema(description = "Lots with results that hold seed of other crops too; not in the rows")
        List<SubjectLink> mixedLots,
    @Schema(description = "Crops that were looked at") int crops,
    @Schema(
            description =
                "False where more crops match than are looked at in one request, or the facts of"
                    + " one make no forecast")
        boolean complete,
    AsOf asOf) {

  @Schema(description = "A lot that was forecast and examined by one method")
  public record Point(
      SubjectLink crop,
      SubjectLink lot,
      PostControlMethod method,
      @Schema(description = "Forecast") ShareView predicted,
      @Schema(description = "Plants examined") int plantsExamined,
      @Schema(description = "Plants that are not F1 hybrid") int nonHybridPlants,
      @Schema(description = "Hybrid plants, with exact binomial interval") ShareView observed,
      @Schema(description = "Whether the observed share lies in the forecast interval")
          boolean inside,
      PredictionAgainstTruth.Fit fit,
      List<String> factIds) {

    public static Point of(PredictionAgainstTruth.Row row) {
      return new Point(
          SubjectLink.of(row.crop()),
          SubjectLink.of(row.lot()),
          row.method(),
          ShareView.of(row.predictedMean(), row.predicted()),
          row.plants(),
          row.nonHybrid(),
          ShareView.of(row.observed(), row.observedInterval()),
          row.inside(),
          row.fit(),
          row.factIds());
    }
  }

  public static CalibrationView of(
      String hybridId, HybridityForecasts.Calibration calibration, ReaderWords words, AsOf asOf) {
    PredictionAgainstTruth truth = calibration.truth();
    int rows = truth.rows().size();
    return new CalibrationView(
        hybridId,
        words.plain(new ForecastStatement.AdviceOnly()),
        truth.rows().stream().map(Point::of).toList(),
        truth.inside(),
        truth
            .coverage()
            .map(interval -> ShareView.of((double) truth.inside() / rows, interval))
            .orElse(null),
        truth.meanDifference().map(ShareView::percent).orElse(null),
        calibration.mixedLots().stream().map(SubjectLink::of).toList(),
        calibration.crops(),
        calibration.complete(),
        asOf);
  }
}
