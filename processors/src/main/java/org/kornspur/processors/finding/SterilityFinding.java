package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Value.Amount;

/** What checks of the female's sterility show. */
public sealed interface SterilityFinding extends Finding {
  record Plants(Amount sterile, int shedding, int examined) implements SterilityFinding {}

  /** Checks on days on which the crop does not flower by its declaration. */
  record NotInFlower(int checks) implements SterilityFinding {}

  record BaggedEars(Amount sterile, int withSeed, int examined) implements SterilityFinding {}

  /** Checks of bagged ears before the end of flowering, when no seed shows yet. */
  record EarsReadTooEarly(int checks) implements SterilityFinding {}
}
