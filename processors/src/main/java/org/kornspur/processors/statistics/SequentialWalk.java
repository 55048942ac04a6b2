package org.kornspur.processors.statistics;

/**
 * Where a sequential count can stand after each unit, with exact probabilities, at one true share.
 *
 * <p>Index {@code bad - lowest} of the array holds the probability that the count is still going on
 * with so many bad units; only counts between the two lines are held.
 */
final class SequentialWalk {

  private final SequentialPlan plan;
  private final double share;
  private int examined;
  private int lowest;
  private double[] going = {1};
  private double accepted;

  SequentialWalk(SequentialPlan plan, double share) {
    this.plan = plan;
    this.share = share;
  }

  /** Examines one more unit. */
  void step() {
    examined++;
    int accept = plan.acceptAtMost(examined);
    int reject = plan.rejectAtLeast(examined);
    int from = Math.max(lowest, accept + 1);
    int to = Math.min(lowest + going.length, reject - 1);
    double[] next = new double[Math.max(0, to - from + 1)];
    for (int i = 0; i < going.length; i++) {
      move(next, from, accept, reject, lowest + i, going[i] * (1 - share));
      move(next, from, accept, reject, lowest + i + 1, going[i] * share);
    }
    lowest = from;
    going = next;
  }

  private void move(double[] next, int from, int accept, int reject, int bad, double probability) {
    if (bad <= accept) {
      accepted += probability;
    } else if (bad < reject) {
      next[bad - from] += probability;
    }
  }

  /** Probability of acceptance up to here. */
  double accepted() {
    return accepted;
  }

  /** Probability that the count is not at its end. */
  double stillCounting() {
    double sum = 0;
    for (double probability : going) {
      sum += probability;
    }
    return sum;
  }

  /** Probability of acceptance if the count were ended at this unit by the middle of the lines. */
  double acceptanceIfEndedHere() {
    int most = (int) Math.floor(plan.slope() * examined);
    double sum = accepted;
    for (int i = 0; i < going.length && lowest + i <= most; i++) {
      sum += going[i];
    }
    return sum;
  }
}
