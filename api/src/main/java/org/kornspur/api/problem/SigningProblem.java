package org.kornspur.api.problem;

/** What is needed to sign an act, beside a fresh log-in. */
public sealed interface SigningProblem extends RequestReason {
  record NoText() implements SigningProblem {}

  record NotOneLine(int most) implements SigningProblem {}

  record NoSeal(int digits) implements SigningProblem {}

  /** Not one lot is named, or too many. */
  record NoLots(int most) implements SigningProblem {}

  /** This instance no longer knows the release sheet with the seal that was seen. */
  record UnknownSheet(String now) implements SigningProblem {}

  /** Stands in the release sheet now. */
  record Added() implements SigningProblem {}

  /** Stood in the release sheet that was seen. */
  record Gone() implements SigningProblem {}
}
