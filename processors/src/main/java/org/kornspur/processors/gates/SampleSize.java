package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.SampleSizeFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.ExactPoisson;

/**
 * Whether enough was counted, and what that is worth: the consumer's risk, with which a crop or lot
 * that is one and a half times as bad as the limit would have passed, exact binomial or Poisson.
 * The risk is shown and decides nothing; what decides is the least sample of the rulebook.
 *
 * @param least the least sample; empty where the book has none, which is then owed by itself
 */
record SampleSize(Optional<Limit> least) {
  /** How many times the limit is taken for certainly too bad; common practice, no source. */
  private static final double TOO_BAD = 1.5;

  /** So that a limit times a count that should be whole is not a hair below. */
  private static final double ROUNDING = 1e-9;

  boolean isEnough(double counted) {
    return least.map(limit -> limit.holds(counted)).orElse(true);
  }

  Amount leastAmount() {
    return least.map(limit -> new Amount(limit.value(), limit.unit())).orElseThrow();
  }

  /** That it is too small; nothing where it is enough. */
  List<Finding> tooSmall(double counted) {
    return isEnough(counted)
        ? List.of()
        : List.of(
            new SampleSizeFinding.TooSmall(
                new Amount(counted, leastAmount().unit()), leastAmount()));
  }

  /** That the first visit of those that tell nothing yet was too early. */
  static Optional<Finding> tooEarly(SeedCrop crop, List<Visit> visits) {
    return visits.stream()
        .filter(visit -> !crop.tells(visit))
        .findFirst()
        .map(visit -> new SampleSizeFinding.TooEarly(visit.firstStage(), crop.stageFrom()));
  }

  /** How many of so many, or on so many square metres, a limit for each of them allows. */
  static int mostBad(double limit, double counted) {
    return (int) Math.floor(limit * counted + ROUNDING);
  }

  /** The risk where at most the limit's share of the plants may be bad. */
  static Optional<Finding> riskOfShare(int plants, double limit) {
    return risk(plants, mostBad(limit, plants), limit);
  }

  /** The risk where at most so many plants may be bad; empty where no such share can be. */
  static Optional<Finding> risk(int plants, int mostBad, double limit) {
    return risk(plants, mostBad, limit, share -> share);
  }

  /**
   * The same by a method that errs.
   *
   * @param called share that is called bad, by the share that is
   */
  static Optional<Finding> risk(int plants, int mostBad, double limit, DoubleUnaryOperator called) {
    double share = TOO_BAD * limit;
    if (limit <= 0 || share >= 1 || plants <= 0) {
      return Optional.empty();
    }
    return Optional.of(
        new SampleSizeFinding.ConsumersRisk(
            Amount.percent(100 * share),
            Amount.percent(
                100 * ExactBinomial.atMost(mostBad, plants, called.applyAsDouble(share)))));
  }

  /** The risk of a count over an area in square metres, by plants for each of them. */
  static Optional<Finding> riskOfArea(double areaM2, double limit) {
    double expected = TOO_BAD * limit * areaM2;
    if (expected <= 0) {
      return Optional.empty();
    }
    int most = mostBad(limit, areaM2);
    return Optional.of(
        new SampleSizeFinding.ConsumersRiskByArea(
            new Amount(expected, "plants"),
            Amount.squareMetres(areaM2),
            Amount.percent(100 * ExactPoisson.atMost(most, expected))));
  }
}
