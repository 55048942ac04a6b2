package org.kornspur.api.problem;

import java.util.List;

/** What the body of a request must be. */
public sealed interface BodyProblem extends RequestReason {

  /** How long it may be at most, bytes. */
  sealed interface Limit extends BodyProblem {
    int most();
  }

  record TooLarge(int most) implements Limit {}

  record TooLargeToLogIn(int most) implements Limit {}

  record Slow(int seconds) implements BodyProblem {}

  record NoObject() implements BodyProblem {}

  record UnknownField(List<String> fields) implements BodyProblem {}

  record OtherShape() implements BodyProblem {}

  record MoreText() implements BodyProblem {}

  record TooManyFacts(int most) implements BodyProblem {}

  record NoFact() implements BodyProblem {}

  /** A fact that no broker took. */
  record NotTaken() implements BodyProblem {}
}
