package org.kornspur.ingest.problem;

/** What an input as a whole must be. */
public sealed interface InputProblem extends IntakeReason {
  record NotJson(int deepest) implements InputProblem {}

  record NoObject() implements InputProblem {}

  record NotUtf8() implements InputProblem {}

  record TooLong(int most) implements InputProblem {}

  /** The whole fact, in bytes, as it goes through the stream. */
  record FactTooLarge(int most) implements InputProblem {}

  record FurtherProblems(int written) implements InputProblem {}

  /** Too large to be kept: its beginning is. */
  record KeptInPart(int most, int kept, String place) implements InputProblem {}

  /** What an earlier release recorded in English. */
  record Recorded(String limit, String remedy) implements InputProblem {}
}
