package org.kornspur.ingest.problem;

/** What any text of a fact must be. */
public sealed interface TextProblem extends IntakeReason {
  record Blank() implements TextProblem {}

  record TooLong(int most) implements TextProblem {}

  record NotOneLine() implements TextProblem {}
}
