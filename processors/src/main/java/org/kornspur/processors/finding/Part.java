package org.kornspur.processors.finding;

/** As what a lot goes into a mixture or an admixture. */
public enum Part {
  FEMALE,
  POLLINATOR,
  /** Hybrid seed to which open-pollinated rye is added. */
  HYBRID
}
