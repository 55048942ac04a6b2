package org.kornspur.api.problem;

/** What is needed to settle refused input. */
public sealed interface DecisionProblem extends RequestReason {
  record NotWhole(String place) implements DecisionProblem {}

  record NoFactType() implements DecisionProblem {}

  record NoReason(int most) implements DecisionProblem {}
}
