package org.kornspur.ingest.problem;

/** What lists of a fact may hold. */
public sealed interface ListProblem extends IntakeReason {
  record TooFew(int least) implements ListProblem {}

  record TooMany(int most) implements ListProblem {}

  /** Each lot or crop that is named is sent the whole fact. */
  record TooManyNamed(int most) implements ListProblem {}

  /** A lot that another place of the fact names already. */
  record LotTwice(String place) implements ListProblem {}

  record LabelTwice(String place) implements ListProblem {}
}
