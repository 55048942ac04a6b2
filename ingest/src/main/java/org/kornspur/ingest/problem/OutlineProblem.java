package org.kornspur.ingest.problem;

import org.kornspur.ingest.statement.Value.Amount;

/** What the outline of a field must be. */
public sealed interface OutlineProblem extends IntakeReason {
  record TooManyCorners(int most) implements OutlineProblem {}

  record TooFewCorners(int least) implements OutlineProblem {}

  record TooWide(Amount most) implements OutlineProblem {}

  record SidesMeet() implements OutlineProblem {}

  record NoPlace() implements OutlineProblem {}

  record RepeatedCorner() implements OutlineProblem {}

  record Spike() implements OutlineProblem {}

  record TooLarge(Amount most) implements OutlineProblem {}

  record Polar(Amount most) implements OutlineProblem {}
}
