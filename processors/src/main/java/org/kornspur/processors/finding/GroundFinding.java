package org.kornspur.processors.finding;

import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;

/** The ground that a crop stands on. */
public sealed interface GroundFinding extends Finding {
  record YearsWithoutRye(int years) implements GroundFinding {}

  /**
   * Rye of an earlier year on part of the crop's ground.
   *
   * @param cropYear year, as digits
   */
  record RyeOnRecord(Subject rye, String cropYear, Amount onCrop) implements GroundFinding {}

  /** The declaration says more years without rye than the record leaves. */
  record DeclaredOtherwise(int declared, int onRecord) implements GroundFinding {}

  /** Rye of earlier crops that visits counted. */
  record Volunteers(int plants, int visits) implements GroundFinding {}

  record Area(Amount area) implements GroundFinding {}

  /** Less than the outline holds. */
  record AreaSown(Amount area) implements GroundFinding {}

  record SmallAreaAccepted() implements GroundFinding {}
}
