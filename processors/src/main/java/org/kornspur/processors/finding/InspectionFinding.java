package org.kornspur.processors.finding;

/** Visits of field inspectors. */
public sealed interface InspectionFinding extends Finding {
  record Visits(int visits) implements InspectionFinding {}

  record VisitsToPollenParent(int visits) implements InspectionFinding {}

  record VisitsInFlower(int visits) implements InspectionFinding {}

  /** Visits before the growth stage from which on they tell. */
  record TooEarly(int visits, int fromStage) implements InspectionFinding {}

  /** Plants that were found over what the rulebook sets no limit for: an area, or plants. */
  record CountedOtherwise(int plants) implements InspectionFinding {}
}
