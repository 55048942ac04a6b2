package org.kornspur.api.query.season;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.advice.CalibrationView;
import org.kornspur.api.query.advice.HybridityForecasts;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.SeedMaterial;

/** Seasons, and multipliers, side by side, as far as the caller sees them. */
@ApplicationScoped
public class SeasonComparison {
  @Inject VisibleData data;
  @Inject HybridityForecasts forecasts;
  @Inject FactReadModel facts;
  @Inject QueryService queries;
  @Inject RequestWords words;

  public SeasonsView seasons(SeasonFilter filter) {
    return seasons(filter, calibration(filter));
  }

  /**
   * @param calibration the forecasts of the same crops, as {@link #calibration} has them
   */
  public SeasonsView seasons(SeasonFilter filter, CalibrationView calibration) {
    return new SeasonsView(
        filter.hybridId().orElse(null),
        filter.seedId().orElse(null),
        filter.holder().orElse(null),
        seasons(Subject.Kind.LOT, filter),
        seasons(Subject.Kind.CROP, filter),
        forecasts(calibration.rows()),
        calibration.complete() && calibration.rows().size() == calibration.results(),
        calibration.asOf());
  }

  /** What was forecast of hybridity, beside what was found. */
  public CalibrationView calibration(SeasonFilter filter) {
    return CalibrationView.of(
        filter.hybridId().orElse(null),
        forecasts.calibration(filter),
        words.words(),
        queries.asOf());
  }

  private List<SeasonView> seasons(Subject.Kind kind, SeasonFilter filter) {
    return data.seasons(kind, filter).stream().map(SeasonView::of).toList();
  }

  private List<SeasonsView.Forecasts> forecasts(List<CalibrationView.Point> points) {
    SortedMap<Integer, List<CalibrationView.Point>> bySeason =
        new TreeMap<>(Comparator.reverseOrder());
    for (CalibrationView.Point point : points) {
      cropYear(Subject.parse(point.crop().subject()))
          .ifPresent(year -> bySeason.computeIfAbsent(year, one -> new ArrayList<>()).add(point));
    }
    return bySeason.entrySet().stream()
        .map(season -> forecasts(season.getKey(), season.getValue()))
        .toList();
  }

  private static SeasonsView.Forecasts forecasts(int cropYear, List<CalibrationView.Point> points) {
    int inside = (int) points.stream().filter(CalibrationView.Point::inside).count();
    return new SeasonsView.Forecasts(
        cropYear,
        points.size(),
        inside,
        SeasonView.share(inside, points.size()),
        mean(points, CalibrationView.Point::predicted),
        mean(points, CalibrationView.Point::observed));
  }

  private static double mean(
      List<CalibrationView.Point> points, Function<CalibrationView.Point, ShareView> share) {
    return ShareView.percent(
        points.stream().mapToDouble(point -> share.apply(point).percent()).average().orElseThrow()
            / 100);
  }

  private Optional<Integer> cropYear(Subject crop) {
    return data.row(crop).flatMap(StandingIndexRow::material).map(SeedMaterial::getCropYear);
  }

  /**
   * Each multiplier of a season.
   *
   * @param cropYear the latest where it is empty
   */
  public MultipliersView multipliers(Optional<Integer> cropYear, Optional<String> hybridId) {
    int year = cropYear.or(this::latest).orElse(0);
    return new MultipliersView(
        year,
        hybridId.orElse(null),
        multipliers(Subject.Kind.LOT, year, hybridId),
        multipliers(Subject.Kind.CROP, year, hybridId),
        queries.asOf());
  }

  private Optional<Integer> latest() {
    return data.values().cropYears().stream().findFirst();
  }

  private List<MultipliersView.Multiplier> multipliers(
      Subject.Kind kind, int year, Optional<String> hybridId) {
    return data.byHolder(kind, year, SeasonFilter.ofHybrid(hybridId)).entrySet().stream()
        .map(
            holder ->
                new MultipliersView.Multiplier(
                    holder.getKey(),
                    facts.enterprises().of(holder.getKey()).orElse(null),
                    SeasonView.of(holder.getValue())))
        .toList();
  }
}
