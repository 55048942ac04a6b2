package org.kornspur.processors.statistics;

/**
 * A plan of single sampling: examine so many units, accept with at most so many bad.
 *
 * @param examined units to examine
 * @param acceptanceNumber most bad units with which the material is accepted
 */
public record SamplingPlan(int examined, int acceptanceNumber) {

  /**
   * @throws IllegalArgumentException where the acceptance number does not fit the number examined
   */
  public SamplingPlan {
    Preconditions.count(acceptanceNumber, examined);
  }

  /** Probability of accepting material with this true share of bad units. */
  public double acceptanceProbability(double share) {
    return ExactBinomial.atMost(acceptanceNumber, examined, share);
  }

  /** Producer's risk: probability of refusing material that is just at the standard. */
  public double producersRisk(double standard) {
    return ExactBinomial.atLeast(acceptanceNumber + 1, examined, standard);
  }

  /** Consumer's risk: probability of accepting material as bad as {@code unacceptable}. */
  public double consumersRisk(double unacceptable) {
    return acceptanceProbability(unacceptable);
  }
}
