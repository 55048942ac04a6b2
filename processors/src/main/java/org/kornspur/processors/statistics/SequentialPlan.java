package org.kornspur.processors.statistics;

/**
 * A sequential count: after each plant it says accept, reject or go on, so that clear crops need
 * few plants.
 *
 * <p>A. Wald, "Sequential tests of statistical hypotheses", Annals of Mathematical Statistics 16
 * (1945) 117-186: the ratio of likelihoods at {@code rejectable} and {@code acceptable} is held
 * against two limits, which for counts are two parallel lines. The limits are 1/alpha and beta,
 * with which neither risk can exceed its nominal value; Wald's usual (1 - beta)/alpha and beta/(1 -
 * alpha) keep only their sum, and for rare off-types let the consumer's risk exceed beta. The count
 * ends at {@code mostUnits}; there, it accepts on or under the middle of the lines. Risks of the
 * plan as it ends are exact, not bounds.
 *
 * @param acceptable share of bad units at which rejection is an error
 * @param rejectable share of bad units at which acceptance is an error; above {@code acceptable}
 * @param alpha nominal producer's risk
 * @param beta nominal consumer's risk
 * @param mostUnits units at which the count ends
 */
public record SequentialPlan(
    double acceptable, double rejectable, double alpha, double beta, int mostUnits) {

  private static final int LONGEST = 200_000;

  /** What the plan says of a count. */
  public enum Decision {
    GO_ON,
    ACCEPT,
    REJECT
  }

  /**
   * Exact properties at one true share.
   *
   * @param acceptance probability that the count ends with acceptance
   * @param expectedUnits mean number of units counted until it ends
   */
  public record Performance(double acceptance, double expectedUnits) {}

  /**
   * @throws IllegalArgumentException where the shares are not in order or the risks sum to 1 or
   *     more
   */
  public SequentialPlan {
    check(acceptable, rejectable, alpha, beta);
    if (mostUnits < 1) {
      throw new IllegalArgumentException(
          "A count takes at least one unit; the end given is " + mostUnits);
    }
  }

  /**
   * The shortest plan whose exact risks do not exceed the nominal ones.
   *
   * @throws IllegalArgumentException where the shares are not in order, or so close that the count
   *     would take more than 200,000 units
   */
  public static SequentialPlan keepingRisks(
      double acceptable, double rejectable, double alpha, double beta) {
    check(acceptable, rejectable, alpha, beta);
    SequentialPlan open = new SequentialPlan(acceptable, rejectable, alpha, beta, LONGEST);
    SequentialWalk atAcceptable = new SequentialWalk(open, acceptable);
    SequentialWalk atRejectable = new SequentialWalk(open, rejectable);
    for (int units = 1; units <= LONGEST; units++) {
      atAcceptable.step();
      atRejectable.step();
      if (1 - atAcceptable.acceptanceIfEndedHere() <= alpha
          && atRejectable.acceptanceIfEndedHere() <= beta) {
        return new SequentialPlan(acceptable, rejectable, alpha, beta, units);
      }
    }
    throw new IllegalArgumentException(
        "To tell %s from %s with these risks takes more than %d units; take shares further apart"
                .formatted(acceptable, rejectable, LONGEST)
            + " or larger risks");
  }

  /** Most bad units among {@code examined} with which the count ends well; below 0 where none. */
  public int acceptAtMost(int examined) {
    if (examined >= mostUnits) {
      return (int) Math.floor(slope() * mostUnits);
    }
    return (int) Math.floor(slope() * examined - Math.log(1 / beta) / gain());
  }

  /** Fewest bad units among {@code examined} with which the count ends badly. */
  public int rejectAtLeast(int examined) {
    if (examined >= mostUnits) {
      return acceptAtMost(mostUnits) + 1;
    }
    return (int) Math.ceil(slope() * examined + Math.log(1 / alpha) / gain());
  }

  /** What to do after {@code bad} of {@code examined}. */
  public Decision after(int examined, int bad) {
    Preconditions.count(bad, examined);
    if (bad <= acceptAtMost(examined)) {
      return Decision.ACCEPT;
    }
    return bad >= rejectAtLeast(examined) ? Decision.REJECT : Decision.GO_ON;
  }

  /** Exact probability of acceptance and expected count at a true share. */
  public Performance at(double share) {
    Preconditions.share("true share", share);
    SequentialWalk walk = new SequentialWalk(this, share);
    double expected = 0;
    for (int units = 1; units <= mostUnits; units++) {
      expected += walk.stillCounting();
      walk.step();
    }
    return new Performance(walk.accepted(), expected);
  }

  /** Exact probability of rejecting what is acceptable. */
  public double producersRisk() {
    return 1 - at(acceptable).acceptance();
  }

  /** Exact probability of accepting what is to be rejected. */
  public double consumersRisk() {
    return at(rejectable).acceptance();
  }

  /** Middle of the two lines, bad units for each unit. */
  double slope() {
    return Math.log((1 - acceptable) / (1 - rejectable)) / gain();
  }

  /** Gain in log likelihood ratio of a bad unit over a good one. */
  private double gain() {
    return Math.log(rejectable * (1 - acceptable) / (acceptable * (1 - rejectable)));
  }

  private static void check(double acceptable, double rejectable, double alpha, double beta) {
    Preconditions.probability("acceptable share", acceptable);
    Preconditions.probability("rejectable share", rejectable);
    Preconditions.probability("producer's risk", alpha);
    Preconditions.probability("consumer's risk", beta);
    if (acceptable >= rejectable) {
      throw new IllegalArgumentException(
          "The rejectable share %s must lie above the acceptable share %s"
              .formatted(rejectable, acceptable));
    }
    if (alpha + beta >= 1) {
      throw new IllegalArgumentException(
          "The two risks must sum to less than 1; they are %s and %s".formatted(alpha, beta));
    }
  }
}
