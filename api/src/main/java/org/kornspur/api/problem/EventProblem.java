package org.kornspur.api.problem;

/** What an event or document of EPCIS must be. */
public sealed interface EventProblem extends RequestReason {
  record DeclaredWrong() implements EventProblem {}

  record NotUnderstood(String term) implements EventProblem {}

  record NoCustomer(String example) implements EventProblem {}

  record LotIncomplete(String term) implements EventProblem {}

  record NoLot() implements EventProblem {}

  record NoMass() implements EventProblem {}

  record NoLots() implements EventProblem {}

  /** The event says something other than the fact in it. */
  record OtherThanFact(String said, String key) implements EventProblem {}

  record NoDocument() implements EventProblem {}

  record OtherVersion() implements EventProblem {}

  record NoEvents() implements EventProblem {}

  record TooManyEvents(int most) implements EventProblem {}
}
