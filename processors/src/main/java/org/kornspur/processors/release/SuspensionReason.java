package org.kornspur.processors.release;

import java.util.Optional;
import org.kornspur.contract.SealedLimit;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Gate;

/** Why a release was suspended by itself, as data. */
public sealed interface SuspensionReason {

  /**
   * A verdict is another one because the rules are: the rulebook, or the program that judges. No
   * fact did it.
   *
   * @param oldLimit limit that the release was signed under; empty where none was sealed
   * @param newLimit limit now; empty where the gate has none
   */
  record RulesChanged(
      Gate gate,
      String aspect,
      SealedState before,
      SealedState after,
      Optional<SealedLimit> oldLimit,
      Optional<Limit> newLimit)
      implements SuspensionReason {}
}
