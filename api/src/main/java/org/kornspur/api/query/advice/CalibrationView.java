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
    @Schema(nullable = true, description = "Null where all hybrids were asked for") String hybridId,
    @Schema(description = "What it is and is not") String advice,
    @Schema(
            description =
                "One for each lot and method, by crop and lot; the first 500 of them. Ask for one"
                    + " hybrid to see others")
        List<Point> rows,
    @Schema(description = "Number of all results, shown or not") int results,
    @Schema(description = "Results whose observed share lies in the forecast interval") int inside,
    @Schema(
            nullable = true,
            description =
                "Part of the results that lie inside, with its exact interval; hold it against the"
                    + " confidence of the forecasts. Null where there are none. Lots of one crop"
                    + " are not independent")
        ShareView coverage,
    @Schema(
            nullable = true,
            description =
                "Mean of observed less expected, percentage points; below 0 where forecasts are too"
                    + " high. Null where there are no results")
        Double meanDifferencePercentPoints,
    @Schema(
            description =
                "Lots with results that hold seed of other crops too, the first 500; not in the"
                    + " rows")
        List<SubjectLink> mixedLots,
    @Schema(description = "Crops that were looked at") int crops,
    @Schema(
            description =
                "False while something that changed a few seconds ago is still being calculated,"
                    + " where the facts of a crop make no forecast, and, for who sees a part of"
                    + " the data, where more than 500 crops match")
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
      String hybridId, CalibrationIndex.Shown shown, ReaderWords words, AsOf asOf) {
    return new CalibrationView(
        hybridId,
        words.plain(new ForecastStatement.AdviceOnly()),
        shown.rows().stream().map(Point::of).toList(),
        shown.results(),
        shown.inside(),
        shown
            .coverage()
            .map(interval -> ShareView.of((double) shown.inside() / shown.results(), interval))
            .orElse(null),
        shown.meanDifference().map(ShareView::percent).orElse(null),
        shown.mixedLots().stream().map(SubjectLink::of).toList(),
        shown.crops(),
        shown.complete(),
        asOf);
  }
}
