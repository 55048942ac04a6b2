package org.kornspur.processors.plan;

import org.kornspur.contract.ShareBasis;

/** How seed of one kind is grown: what is sown to harvest it. */
public sealed interface GrowingMethod {

  /** A fertile line alone, from its own seed. */
  record Alone() implements GrowingMethod {}

  /** Strips of a female, which is harvested, beside strips of a pollen parent. */
  record Strips(String femaleId, String pollenId) implements GrowingMethod {}

  /**
   * Female and pollinator mixed and sown as one.
   *
   * @param share of pollinator, above 0 and below 1, on the basis
   */
  record Mixture(String femaleId, String pollenId, double share, ShareBasis basis)
      implements GrowingMethod {}

  /** No crossing is declared: it can only come from store. */
  record NotGrown() implements GrowingMethod {}
}
