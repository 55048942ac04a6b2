package org.kornspur.processors.advice;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.Heterogeneity;
import org.kornspur.processors.statistics.Heterogeneity.Attribute;
import org.kornspur.processors.statistics.RangeTest;

/**
 * Whether the containers of a lot differ more than those of a mixed lot may. Advice, not a gate.
 *
 * @param results one for each container: percent, or number of other seeds
 * @param h the H value; empty where the rules report none
 * @param range the range test
 * @param heterogeneous whether either test finds the lot heterogeneous
 * @param source where the tests stand
 * @param sentence the finding in a sentence
 */
public record HeterogeneityAdvice(
    List<Double> results,
    Optional<Heterogeneity> h,
    Agreement range,
    boolean heterogeneous,
    HeterogeneityStatement source,
    HeterogeneityStatement sentence) {
  private static final int MOST_CONTAINERS = 1000;

  /**
   * Tests the results of a lot's containers.
   *
   * @throws IllegalArgumentException where there are fewer than two, or one cannot be
   */
  public static HeterogeneityAdvice of(Attribute attribute, List<Double> results) {
    check(attribute, results);
    double[] values = results.stream().mapToDouble(Double::doubleValue).toArray();
    double mean = Arrays.stream(values).average().orElseThrow();
    Optional<Heterogeneity> h =
        attribute.testable(mean)
            ? Optional.of(Heterogeneity.of(attribute, values))
            : Optional.empty();
    Agreement range = RangeTest.judge(attribute, values);
    boolean heterogeneous =
        h.map(Heterogeneity::heterogeneous).orElse(false) || range instanceof Agreement.Disagrees;
    return new HeterogeneityAdvice(
        List.copyOf(results),
        h,
        range,
        heterogeneous,
        new HeterogeneityStatement.Source(),
        sentence(mean, h, range, heterogeneous));
  }

  static void checkContainers(List<Double> results) {
    if (results.size() < 2 || results.size() > MOST_CONTAINERS) {
      throw new AdviceRefusedException(
          new AdviceRefusal.NumberOfContainers(MOST_CONTAINERS, results.size()));
    }
  }

  private static void check(Attribute attribute, List<Double> results) {
    checkContainers(results);
    boolean isCount = attribute == Attribute.OTHER_SEEDS;
    String unit = isCount ? "seeds" : "%";
    double most = isCount ? 1e6 : 100;
    for (double result : results) {
      if (!(result >= 0 && result <= most)) {
        throw new AdviceRefusedException(
            new AdviceRefusal.ResultOutside(new Amount(most, unit), new Amount(result, unit)));
      }
    }
  }

  private static HeterogeneityStatement sentence(
      double mean, Optional<Heterogeneity> h, Agreement range, boolean heterogeneous) {
    boolean isTested = h.isPresent() || !(range instanceof Agreement.NotTabulated);
    return new HeterogeneityStatement.Tested(
        h.<HeterogeneityStatement>map(
                found ->
                    new HeterogeneityStatement.Value(
                        SignificantFigures.number(found.h()),
                        SignificantFigures.number(found.critical()),
                        found.samples(),
                        SignificantFigures.number(mean)))
            .orElseGet(() -> new HeterogeneityStatement.NoValue(SignificantFigures.number(mean))),
        range(range),
        isTested
            ? heterogeneous
                ? new HeterogeneityStatement.Heterogeneous()
                : new HeterogeneityStatement.NotFound()
            : new HeterogeneityStatement.NothingToSay());
  }

  private static HeterogeneityStatement range(Agreement range) {
    if (range instanceof Agreement.Agrees agrees) {
      return new HeterogeneityStatement.RangeWithin(
          SignificantFigures.number(agrees.difference()),
          SignificantFigures.number(agrees.tolerated()));
    }
    if (range instanceof Agreement.Disagrees disagrees) {
      return new HeterogeneityStatement.RangeOver(
          SignificantFigures.number(disagrees.difference()),
          SignificantFigures.number(disagrees.tolerated()));
    }
    return new HeterogeneityStatement.NoRange();
  }
}
