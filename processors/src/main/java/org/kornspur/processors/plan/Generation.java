package org.kornspur.processors.plan;

import org.kornspur.contract.ComponentKind;

/** What seed is in the crossing scheme, with inputs of its own. */
public enum Generation {
  /** A: male-sterile line, kept by its maintainer. */
  STERILE_LINE,
  /** Fertile maintainer of A. */
  MAINTAINER_LINE,
  /** B: fertile line crossed onto A. */
  FERTILE_LINE,
  /** A x B, the seed parent of the hybrid. */
  STERILE_SINGLE_CROSS,
  /** C: restorer, the pollen parent of the hybrid. */
  RESTORER_POLLINATOR,
  /** The certified seed that is sold. */
  F1_SEED;

  static Generation of(ComponentKind kind) {
    return switch (kind) {
      case STERILE_LINE -> STERILE_LINE;
      case MAINTAINER_LINE -> MAINTAINER_LINE;
      case FERTILE_LINE -> FERTILE_LINE;
      case STERILE_SINGLE_CROSS -> STERILE_SINGLE_CROSS;
      case RESTORER_POLLINATOR -> RESTORER_POLLINATOR;
    };
  }

  /** Whether it is a line, which keeps itself, and no cross. */
  boolean isLine() {
    return this != F1_SEED && this != STERILE_SINGLE_CROSS;
  }

  /** Whether it bears no pollen, so that it cannot be multiplied alone. */
  boolean isSterile() {
    return this == STERILE_LINE || this == STERILE_SINGLE_CROSS || this == F1_SEED;
  }
}
