package org.kornspur.processors.plan.field;

import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** What speaks against a crop of a plan on a field. Fields are named as their growers call them. */
public sealed interface FieldConflict extends Statement {

  /** The crop or source on record that it is with; empty where it is with none. */
  default Optional<Subject> onRecord() {
    return Optional.empty();
  }

  /** Pollen on record is too near. */
  record TooNear(
      String seedId, String field, Subject source, Amount distance, Amount limit, String rulebookId)
      implements FieldConflict {
    @Override
    public Optional<Subject> onRecord() {
      return Optional.of(source);
    }
  }

  /** Another crop of the plan is too near. */
  record TooNearPlanned(
      String seedId,
      String field,
      String otherSeedId,
      String otherField,
      Amount distance,
      Amount limit,
      String rulebookId)
      implements FieldConflict {}

  /** It would be too near a crop on record. */
  record Spoils(
      String seedId, String field, Subject crop, Amount distance, Amount limit, String rulebookId)
      implements FieldConflict {
    @Override
    public Optional<Subject> onRecord() {
      return Optional.of(crop);
    }
  }

  /** It would be too near another crop of the plan. */
  record SpoilsPlanned(
      String seedId,
      String field,
      String otherSeedId,
      String otherField,
      Amount distance,
      Amount limit,
      String rulebookId)
      implements FieldConflict {}

  /** Rye stood there too short a time ago. */
  record RyeBefore(
      String seedId, String field, int ryeYear, int years, Amount limit, String rulebookId)
      implements FieldConflict {}

  /** A crop on record has ground of it in that year. */
  record Taken(String seedId, String field, Subject crop) implements FieldConflict {
    @Override
    public Optional<Subject> onRecord() {
      return Optional.of(crop);
    }
  }

  /** Another crop of the plan has ground of it in that year. */
  record TakenByPlanned(String seedId, String field, String otherSeedId) implements FieldConflict {}

  /** The grower cannot grow so much. */
  record OverCapacity(String seedId, String field, String grower, Amount planned, Amount most)
      implements FieldConflict {}

  /** More is put on it than it has. */
  record TooSmall(String seedId, String field, Amount planned, Amount has)
      implements FieldConflict {}
}
