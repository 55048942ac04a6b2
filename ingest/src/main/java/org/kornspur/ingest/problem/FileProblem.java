package org.kornspur.ingest.problem;

/** What a file of facts, and each of its lines, must be. */
public sealed interface FileProblem extends IntakeReason {
  record EmptyTable() implements FileProblem {}

  record EmptyJson() implements FileProblem {}

  record LineTooLong(int most) implements FileProblem {}

  record NotUtf8() implements FileProblem {}

  record JsonTooLarge(int most) implements FileProblem {}

  record FactTooLong(int most) implements FileProblem {}

  record MoreText() implements FileProblem {}

  record SymbolicLink() implements FileProblem {}

  record OtherKind() implements FileProblem {}

  record Unreadable() implements FileProblem {}
}
