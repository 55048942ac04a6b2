package org.kornspur.processors.advice;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.Heterogeneity;
import org.kornspur.processors.statistics.Heterogeneity.Attribute;
import org.kornspur.processors.statistics.PurityRangeTest;

/**
 * Whether the containers of a lot differ more than those of a mixed lot may. Advice, not a gate.
 *
 * @param attribute what was tested
 * @param results one for each container: percent, or number of other seeds
 * @param h the H value; empty where the rules report none
 * @param range the range test; only for analytical purity
 * @param heterogeneous whether either test finds the lot heterogeneous
 * @param source where the tests stand
 * @param sentence for a person
 */
public record HeterogeneityAdvice(
    Attribute attribute,
    List<Double> results,
    Optional<Heterogeneity> h,
    Optional<Agreement> range,
    boolean heterogeneous,
    String source,
    String sentence) {
  private static final int MOST_CONTAINERS = 1000;
  private static final String SOURCE =
      "Reprinted chapter on seed testing, after the International Rules for Seed Testing, tables 2C"
          + " and 2D; factor f for rye from memory, not verified. Range test: Decree 61/2011 of the"
          + " Czech Republic, annex 1";

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
    Optional<Agreement> range =
        attribute == Attribute.PURITY
            ? Optional.of(PurityRangeTest.judge(values))
            : Optional.empty();
    boolean heterogeneous =
        h.map(Heterogeneity::heterogeneous).orElse(false)
            || range.map(Agreement.Disagrees.class::isInstance).orElse(false);
    return new HeterogeneityAdvice(
        attribute,
        List.copyOf(results),
        h,
        range,
        heterogeneous,
        SOURCE,
        sentence(mean, h, range, heterogeneous));
  }

  private static void check(Attribute attribute, List<Double> results) {
    if (results.size() < 2 || results.size() > MOST_CONTAINERS) {
      throw new IllegalArgumentException(
          "The test takes the results of 2 to %d containers; it was given %d. Sample containers one by one."
              .formatted(MOST_CONTAINERS, results.size()));
    }
    double most = attribute == Attribute.OTHER_SEEDS ? 1e6 : 100;
    for (double result : results) {
      if (!(result >= 0 && result <= most)) {
        throw new IllegalArgumentException(
            "A result must lie from 0 to %s; one is %s. Give %s."
                .formatted(
                    Figures.number(most),
                    result,
                    attribute == Attribute.OTHER_SEEDS ? "the number of seeds" : "percent"));
      }
    }
  }

  private static String sentence(
      double mean, Optional<Heterogeneity> h, Optional<Agreement> range, boolean heterogeneous) {
    String byH =
        h.map(
                found ->
                    "H is %s, critical is %s (N = %d, mean %s)"
                        .formatted(
                            Figures.number(found.h()),
                            Figures.number(found.critical()),
                            found.samples(),
                            Figures.number(mean)))
            .orElse("At a mean of %s no H value is reported".formatted(Figures.number(mean)));
    String byRange = range.map(HeterogeneityAdvice::range).orElse("");
    if (h.isEmpty() && !range.map(HeterogeneityAdvice::isTabulated).orElse(false)) {
      return byH + byRange + ". Nothing can be said of the lot.";
    }
    return byH
        + byRange
        + (heterogeneous
            ? ". The lot is heterogeneous: mix it again, or divide it, and have it sampled anew."
            : ". The lot is not found heterogeneous.");
  }

  private static String range(Agreement range) {
    if (range instanceof Agreement.Agrees agrees) {
      return "; the range of %s is within the %s tolerated"
          .formatted(Figures.number(agrees.difference()), Figures.number(agrees.tolerated()));
    }
    if (range instanceof Agreement.Disagrees disagrees) {
      return "; the range of %s is over the %s tolerated"
          .formatted(Figures.number(disagrees.difference()), Figures.number(disagrees.tolerated()));
    }
    return "; the range test does not apply";
  }

  private static boolean isTabulated(Agreement range) {
    return !(range instanceof Agreement.NotTabulated);
  }
}
