package org.kornspur.processors.statistics;

import java.util.List;

/** Thousand-kernel weight from kernels counted and weighed together. */
public final class KernelWeight {

  /**
   * Largest coefficient of variation between replicates of 100 kernels, percent, for seed that is
   * not chaffy: International Rules for Seed Testing, chapter 10, from memory, not verified.
   */
  public static final double LARGEST_VARIATION_PERCENT = 4;

  private KernelWeight() {}

  /**
   * Kernels weighed together.
   *
   * @param kernels number of kernels
   * @param massG their mass, grams
   */
  public record Weighing(int kernels, double massG) {

    /**
     * @throws IllegalArgumentException where there are no kernels or no mass
     */
    public Weighing {
      Checks.positive("number of kernels", kernels);
      Checks.positive("mass in grams", massG);
    }
  }

  /**
   * Thousand-kernel weight in grams: all mass over all kernels. Its standard error comes from the
   * spread of the replicates; a single replicate shows no spread, so the largest variation that the
   * rules tolerate is taken.
   *
   * @throws IllegalArgumentException where there is no replicate
   */
  public static Estimate thousandKernelWeightG(List<Weighing> replicates) {
    if (replicates.isEmpty()) {
      throw new IllegalArgumentException("A kernel weight needs at least one weighing");
    }
    double kernels = replicates.stream().mapToInt(Weighing::kernels).sum();
    double weight = 1000 * replicates.stream().mapToDouble(Weighing::massG).sum() / kernels;
    int count = replicates.size();
    if (count == 1) {
      double hundreds = kernels / 100;
      return new Estimate(weight, weight * LARGEST_VARIATION_PERCENT / 100 / Math.sqrt(hundreds));
    }
    // variance of a ratio estimate, with the replicates weighted by their kernels
    double squares = 0;
    for (Weighing replicate : replicates) {
      double off = 1000 * replicate.massG - weight * replicate.kernels;
      squares += off * off;
    }
    double error = Math.sqrt(squares * count / (count - 1.0)) / kernels;
    return new Estimate(weight, error);
  }
}
