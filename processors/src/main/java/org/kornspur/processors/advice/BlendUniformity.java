package org.kornspur.processors.advice;

import java.util.List;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.statistics.Dispersion;
import org.kornspur.processors.statistics.Interval;

/**
 * Whether the containers of a technical mixture differ in their share of pollinator more than
 * chance makes them. Advice, not a gate.
 *
 * @param containers containers sampled
 * @param uneven whether they differ, at 1 % as the H value
 * @param share share of pollinator by kernels over all containers
 * @param interval its interval, wider where containers differ
 * @param chiSquared Pearson's chi-squared of homogeneity
 * @param freedom its degrees of freedom
 * @param probability of containers that differ as much in a well-mixed lot
 * @param simulated whether that was simulated, because few kernels are expected
 * @param factor how many times as far apart as chance makes them, 1 or more
 * @param source where the test stands
 * @param sentence the finding in a sentence
 */
public record BlendUniformity(
    int containers,
    boolean uneven,
    double share,
    Interval interval,
    double chiSquared,
    int freedom,
    double probability,
    boolean simulated,
    double factor,
    HeterogeneityStatement source,
    HeterogeneityStatement sentence) {
  private static final double LEVEL = 0.01;
  private static final double CONFIDENCE = 0.95;
  private static final int MOST_KERNELS = 100_000;

  /**
   * Tests the containers of a mixture.
   *
   * @param pollinator pollinator kernels, for each container
   * @param examined kernels told apart, for each container
   * @throws AdviceRefusedException where there are fewer than two, or one cannot be
   */
  public static BlendUniformity of(List<Double> pollinator, List<Double> examined) {
    check(pollinator, examined);
    Dispersion found =
        Dispersion.ofShares(
            pollinator.stream().mapToInt(Double::intValue).toArray(),
            examined.stream().mapToInt(Double::intValue).toArray());
    double probability = found.probability();
    boolean uneven = probability < LEVEL;
    Interval interval = found.interval(CONFIDENCE);
    return new BlendUniformity(
        found.samples(),
        uneven,
        found.mean(),
        interval,
        found.chiSquared(),
        found.freedom(),
        probability,
        found.isSimulated(),
        found.factor(),
        new HeterogeneityStatement.BlendSource(),
        new HeterogeneityStatement.BlendTested(
            SignificantFigures.percent(found.mean()),
            SignificantFigures.percent(interval.lower()),
            SignificantFigures.percent(interval.upper()),
            Amount.percent(100 * CONFIDENCE),
            found.samples(),
            SignificantFigures.percent(probability),
            SignificantFigures.number(Math.round(10 * found.factor()) / 10.0),
            uneven
                ? new HeterogeneityStatement.BlendUneven()
                : new HeterogeneityStatement.BlendNotUneven()));
  }

  private static void check(List<Double> pollinator, List<Double> examined) {
    HeterogeneityAdvice.checkContainers(pollinator);
    if (examined.size() != pollinator.size()) {
      throw new AdviceRefusedException(
          new AdviceRefusal.KernelsOfEachContainer(pollinator.size(), examined.size()));
    }
    for (int i = 0; i < pollinator.size(); i++) {
      wholeFrom(1, examined.get(i), MOST_KERNELS);
      wholeFrom(0, pollinator.get(i), examined.get(i));
    }
  }

  private static void wholeFrom(int least, double count, double most) {
    if (!(count == Math.rint(count) && count >= least && count <= most)) {
      throw new AdviceRefusedException(
          new AdviceRefusal.KernelsOutside(
              least, new Amount(most, "kernels"), new Amount(count, "kernels")));
    }
  }
}
