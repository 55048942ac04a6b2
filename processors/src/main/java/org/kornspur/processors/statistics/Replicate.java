package org.kornspur.processors.statistics;

/**
 * One replicate of a germination test.
 *
 * @param seeds seeds set to germinate
 * @param normalSeedlings normal seedlings at the final count
 */
public record Replicate(int seeds, int normalSeedlings) {

  /**
   * @throws IllegalArgumentException where there are no seeds or more seedlings than seeds
   */
  public Replicate {
    Preconditions.count(normalSeedlings, seeds);
  }
}
