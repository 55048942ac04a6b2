package org.kornspur.processors.advice;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.MethodErrors;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.MarkerCorrection;

/**
 * Forecasts of hybridity beside what marker tests and post-control plots found: the points of a
 * calibration plot. All values are shares of hybrid seed or plants, from 0 to 1.
 *
 * @param rows one for each lot and method
 * @param inside rows whose observed share lies in the forecast interval
 * @param coverage exact interval of the part of rows that lie inside; to be held against the
 *     forecast's own confidence. Lots of one crop are not independent, so it is too narrow where a
 *     crop has several rows. Empty where there are no rows
 * @param meanDifference mean of observed less predicted; below 0 where forecasts are too high.
 *     Empty where there are no rows
 */
public record PredictionAgainstTruth(
    List<Row> rows, int inside, Optional<Interval> coverage, Optional<Double> meanDifference) {
  private static final double CONFIDENCE = 0.95;

  /** How an observation lies to a forecast. */
  public enum Fit {
    /** The observed share lies in the forecast interval. */
    INSIDE,
    /** It does not, but its own interval reaches into the forecast interval: more plants tell. */
    NOT_SETTLED,
    /** The whole observed interval lies above the forecast. */
    BETTER_THAN_FORECAST,
    /** The whole observed interval lies below the forecast. */
    WORSE_THAN_FORECAST
  }

  /**
   * A lot that was forecast and examined by one method.
   *
   * @param crop crop that the whole lot grew in
   * @param lot the lot
   * @param method plot or marker
   * @param predictedMean mean of the forecast
   * @param predicted its interval
   * @param plants plants examined, over all results by this method
   * @param nonHybrid plants that are not F1 hybrid among them
   * @param observed share of hybrid plants, with the errors of a marker method taken out where its
   *     laboratory stated them
   * @param observedInterval its exact binomial interval, with the same errors taken out
   * @param fit how the two lie to each other
   * @param factIds the results
   */
  public record Row(
      Subject crop,
      Subject lot,
      PostControlMethod method,
      double predictedMean,
      Interval predicted,
      int plants,
      int nonHybrid,
      double observed,
      Interval observedInterval,
      Fit fit,
      List<String> factIds) {

    /** Whether the observed share lies in the forecast interval. */
    public boolean inside() {
      return fit == Fit.INSIDE;
    }
  }

  /** Sums up rows. */
  public static PredictionAgainstTruth of(List<Row> rows) {
    int inside = (int) rows.stream().filter(Row::inside).count();
    if (rows.isEmpty()) {
      return new PredictionAgainstTruth(List.of(), 0, Optional.empty(), Optional.empty());
    }
    double difference =
        rows.stream()
            .mapToDouble(row -> row.observed() - row.predictedMean())
            .average()
            .orElseThrow();
    return new PredictionAgainstTruth(
        List.copyOf(rows),
        inside,
        Optional.of(coverage(inside, rows.size())),
        Optional.of(difference));
  }

  /** Exact interval of the part of rows that lie inside. */
  public static Interval coverage(int inside, int rows) {
    return ExactBinomial.interval(inside, rows, CONFIDENCE);
  }

  /**
   * Rows of one lot, one for each method; empty where no result counts plants that are not hybrid.
   * A result with more of these than plants says nothing and waits for its correction; a method
   * that errs as often as not says nothing either.
   *
   * @param forecast the forecast of the crop that the whole lot grew in
   * @param lot dossier of the lot
   */
  public static List<Row> rows(HybridityForecast forecast, Dossier lot) {
    Map<PostControlMethod, List<PostControlResult>> byMethod =
        new EnumMap<>(PostControlMethod.class);
    for (PostControlResult result : lot.facts(PostControlResult.class)) {
      Integer nonHybrid = result.getNonHybridPlants();
      if (nonHybrid != null
          && nonHybrid <= result.getPlantsExamined()
          && errors(result).separates()) {
        byMethod.computeIfAbsent(result.getMethod(), method -> new ArrayList<>()).add(result);
      }
    }
    return byMethod.entrySet().stream()
        .map(results -> row(forecast, lot.subject(), results.getKey(), results.getValue()))
        .toList();
  }

  private static Row row(
      HybridityForecast forecast,
      Subject lot,
      PostControlMethod method,
      List<PostControlResult> results) {
    int plants = results.stream().mapToInt(PostControlResult::getPlantsExamined).sum();
    int nonHybrid = results.stream().mapToInt(PostControlResult::getNonHybridPlants).sum();
    MarkerCorrection errors =
        MarkerCorrection.together(
            results.stream()
                .map(
                    result ->
                        new MarkerCorrection.Counted(result.getPlantsExamined(), errors(result)))
                .toList());
    MarkerCorrection.Share others = errors.trueShare(nonHybrid, plants, CONFIDENCE);
    double observed = 1 - others.share();
    Interval observedInterval =
        new Interval(1 - others.interval().upper(), 1 - others.interval().lower(), CONFIDENCE);
    Interval predicted = forecast.forecast().interval();
    return new Row(
        forecast.crop(),
        lot,
        method,
        forecast.forecast().mean(),
        predicted,
        plants,
        nonHybrid,
        observed,
        observedInterval,
        fit(predicted, observed, observedInterval),
        FactType.idsOf(results));
  }

  /** Errors that are not stated cannot be taken out. */
  private static MarkerCorrection errors(PostControlResult result) {
    return MethodErrors.of(result).orElse(MarkerCorrection.NONE);
  }

  static Fit fit(Interval predicted, double observed, Interval observedInterval) {
    if (predicted.contains(observed)) {
      return Fit.INSIDE;
    }
    if (observedInterval.lower() > predicted.upper()) {
      return Fit.BETTER_THAN_FORECAST;
    }
    return observedInterval.upper() < predicted.lower() ? Fit.WORSE_THAN_FORECAST : Fit.NOT_SETTLED;
  }
}
