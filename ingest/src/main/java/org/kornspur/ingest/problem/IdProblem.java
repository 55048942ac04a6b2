package org.kornspur.ingest.problem;

/** What an id must be, by its form and beside the fact's own id. */
public sealed interface IdProblem extends IntakeReason {
  /** The kind of thing that it names, and the most characters. */
  record NoId(String names, int most) implements IdProblem {}

  record CorrectsItself() implements IdProblem {}

  record RetestsItself() implements IdProblem {}

  record WithdrawsItself() implements IdProblem {}
}
