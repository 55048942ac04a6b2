package org.kornspur.api.query.season;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.SampleIndex.Germination;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.RangeChart;

/** Control charts of the germination tests of laboratories, as far as the caller sees them. */
@ApplicationScoped
public class LaboratoryCharts {
  private static final int MOST_SHOWN = 1000;

  @Inject VisibleData data;
  @Inject FactReadModel facts;
  @Inject QueryService queries;

  /** Every laboratory that has made a germination test, by id. */
  public List<LaboratoryView> laboratories() {
    return facts.samples().germinationTests().entrySet().stream()
        .filter(tests -> data.sees(Subject.enterprise(tests.getKey())))
        .map(
            tests ->
                new LaboratoryView(
                    tests.getKey(),
                    name(tests.getKey()),
                    tests.getValue(),
                    Addresses.ROOT
                        + "/laboratories/"
                        + Addresses.part(tests.getKey())
                        + "/control-chart"))
        .toList();
  }

  /**
   * The chart of a laboratory.
   *
   * @param year the latest with tests where it is empty
   * @throws org.kornspur.api.problem.ApiProblem if the laboratory is not known, or not to be seen
   */
  public ControlChartView chart(String laboratoryId, Optional<Integer> year) {
    Subject laboratory = Subject.enterprise(laboratoryId);
    data.require(laboratory);
    SortedMap<Integer, List<Germination>> byYear = new TreeMap<>(Comparator.reverseOrder());
    for (Germination test : facts.samples().germinationsOf(laboratoryId)) {
      byYear
          .computeIfAbsent(
              test.testedAt().atZone(ZoneOffset.UTC).getYear(), one -> new ArrayList<>())
          .add(test);
    }
    if (byYear.isEmpty()) {
      data.dossier(laboratory);
    }
    Optional<Integer> shown = year.or(() -> byYear.keySet().stream().findFirst());
    return new ControlChartView(
        laboratoryId,
        name(laboratoryId),
        byYear.entrySet().stream().map(one -> year(one.getKey(), one.getValue())).toList(),
        shown.filter(byYear::containsKey).map(one -> chart(one, byYear.get(one))).orElse(null),
        queries.asOf());
  }

  private String name(String laboratoryId) {
    return facts.enterprises().of(laboratoryId).orElse(null);
  }

  private static RangeChart ranges(List<Germination> tests) {
    return RangeChart.of(tests.stream().map(Germination::replicates).toList());
  }

  private static ControlChartView.Year year(int year, List<Germination> tests) {
    RangeChart chart = ranges(tests);
    int beyondTolerance =
        (int) chart.points().stream().filter(RangeChart.Point::isBeyondTolerance).count();
    return new ControlChartView.Year(
        year,
        tests.size(),
        chart.compared(),
        beyondTolerance,
        SeasonView.share(beyondTolerance, tests.size()),
        (int) chart.points().stream().filter(RangeChart.Point::isBeyondLimit).count(),
        chart.spreadInterval().map(interval -> spread(chart, interval)).orElse(null),
        chart.steadiness());
  }

  private static ControlChartView.Spread spread(RangeChart chart, Interval interval) {
    return new ControlChartView.Spread(
        rounded(chart.spread().orElseThrow()),
        rounded(interval.lower()),
        rounded(interval.upper()),
        ShareView.percent(interval.confidence()));
  }

  private static ControlChartView.Chart chart(int year, List<Germination> tests) {
    RangeChart chart = ranges(tests);
    List<ControlChartView.Test> shown = new ArrayList<>();
    for (int i = Math.max(0, tests.size() - MOST_SHOWN); i < tests.size(); i++) {
      shown.add(test(tests.get(i), chart.points().get(i)));
    }
    return new ControlChartView.Chart(
        year, rounded(chart.centre()), chart.hasOwnCentre(), List.copyOf(shown));
  }

  private static ControlChartView.Test test(Germination test, RangeChart.Point point) {
    return new ControlChartView.Test(
        test.lotId(),
        test.sampleId(),
        test.factId(),
        test.testedAt(),
        rounded(point.meanPercent()),
        orNull(point.rangePercent()),
        orNull(point.limitPercent()),
        point.agreement() instanceof Agreement.Tabulated tabulated ? tabulated.tolerated() : null,
        point.isBeyondLimit(),
        point.isBeyondTolerance());
  }

  private static Double orNull(OptionalDouble value) {
    return value.isPresent() ? rounded(value.getAsDouble()) : null;
  }

  /** To four decimals: beyond that lies only arithmetic. */
  private static double rounded(double value) {
    return Math.round(value * 1e4) / 1e4;
  }
}
