package org.kornspur.processors.standards;

/** Which rye a line of a rulebook speaks of. */
public enum Rye {
  /** Hybrid rye and its components. */
  HYBRID,
  /** Hybrid rye with a declared admixture of open-pollinated rye, added to secure pollination. */
  HYBRID_WITH_ADMIXTURE,
  /** Rye other than hybrids. */
  OTHER
}
