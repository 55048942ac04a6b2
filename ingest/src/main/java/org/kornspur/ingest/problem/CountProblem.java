package org.kornspur.ingest.problem;

/** What counts of one fact must be together. */
public sealed interface CountProblem extends IntakeReason {
  /** A part is larger than the whole, which another field holds. */
  record PartAboveWhole(String field, int whole) implements CountProblem {}

  record NeitherPlantsNorArea() implements CountProblem {}

  record BaggedEarsAlone() implements CountProblem {}

  record NothingExamined() implements CountProblem {}

  record NothingCounted() implements CountProblem {}

  /** Error rates of a method that is no marker method. */
  record ErrorRatesOfOtherMethod() implements CountProblem {}

  record ErrorRateAlone() implements CountProblem {}

  /** Of kernels told apart, the mass of all without that of the pollinator, or the other way. */
  record WeighedAlone() implements CountProblem {}

  /** Masses of kernels that were told apart by growing them. */
  record WeighedAfterGrowing() implements CountProblem {}
}
