package org.kornspur.processors.finding;

/** The role of a lot in a mixture or admixture. Its name is part of stored statements. */
public enum Part {
  FEMALE,
  POLLINATOR,
  /** Hybrid seed to which open-pollinated rye is added. */
  HYBRID
}
