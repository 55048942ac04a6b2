package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Value.Amount;

/** The ground that a crop stands on. */
public sealed interface GroundFinding extends Finding {
  record YearsWithoutRye(int years) implements GroundFinding {}

  record Area(Amount area) implements GroundFinding {}

  record SmallAreaAccepted() implements GroundFinding {}
}
