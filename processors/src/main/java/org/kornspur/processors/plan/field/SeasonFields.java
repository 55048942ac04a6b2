package org.kornspur.processors.plan.field;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which field bears which crop in one season.
 *
 * @param placed what a person decided, then what is proposed
 * @param unplaced crops for which no field is left
 */
public record SeasonFields(List<Placed> placed, List<Unplaced> unplaced) {

  /**
   * A crop on a field.
   *
   * @param conflicts what speaks against it; none for a proposal
   * @param isBookSilent whether the rulebook says nothing of the distance that it must keep, so
   *     that evidence is owed once it is declared
   * @param km way from the store to the middle of the field; empty where no store is given
   */
  public record Placed(
      Placement placement,
      List<FieldConflict> conflicts,
      boolean isBookSilent,
      Optional<Double> km) {}

  /** Why a field is not for a crop. */
  public enum Obstacle {
    TAKEN,
    TOO_NEAR,
    RYE_BEFORE,
    CAPACITY;

    static Obstacle of(FieldConflict conflict) {
      if (conflict instanceof FieldConflict.Taken
          || conflict instanceof FieldConflict.TakenByPlanned) {
        return TAKEN;
      }
      if (conflict instanceof FieldConflict.RyeBefore) {
        return RYE_BEFORE;
      }
      return conflict instanceof FieldConflict.OverCapacity ? CAPACITY : TOO_NEAR;
    }
  }

  /**
   * Hectares of a crop for which no field is left.
   *
   * @param fields how many fields are not for it, by the first thing that speaks against each
   * @param examples one conflict of each kind
   */
  public record Unplaced(
      PlannedCrop crop,
      double areaHa,
      Map<Obstacle, Integer> fields,
      List<FieldConflict> examples) {
    public Unplaced {
      fields = fields.isEmpty() ? Map.of() : new EnumMap<>(fields);
      examples = List.copyOf(examples);
    }
  }

  /** Hectares that found no field. */
  public double unplacedHa() {
    return unplaced.stream().mapToDouble(Unplaced::areaHa).sum();
  }

  /** Everything that speaks against what a person decided. */
  public List<FieldConflict> conflicts() {
    return placed.stream().flatMap(one -> one.conflicts().stream()).toList();
  }
}
