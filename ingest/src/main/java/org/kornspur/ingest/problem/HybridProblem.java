package org.kornspur.ingest.problem;

/** What a crossing scheme must be. */
public sealed interface HybridProblem extends IntakeReason {
  record ComponentTwice() implements HybridProblem {}

  record ComponentIsHybrid() implements HybridProblem {}

  record UnknownComponent() implements HybridProblem {}

  record SecondCross() implements HybridProblem {}

  record FemaleNotSterile() implements HybridProblem {}

  record PollenNoRestorer() implements HybridProblem {}

  record NoCrossOfHybrid(String hybrid) implements HybridProblem {}
}
