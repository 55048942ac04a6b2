package org.kornspur.ingest.problem;

import java.util.List;

/** What a value of JSON must be. */
public sealed interface ValueProblem extends IntakeReason {
  record Missing(Expected expected) implements ValueProblem {}

  record NoNumber(Expected expected, Remedy remedy) implements ValueProblem {}

  record NoDay(Expected expected) implements ValueProblem {}

  record NoTime(Expected expected) implements ValueProblem {}

  record OtherChoice(Expected expected) implements ValueProblem {}

  record NoObject(Expected expected) implements ValueProblem {}

  record NoList(Expected expected) implements ValueProblem {}

  record OtherValue(Expected expected) implements ValueProblem {}

  record UnknownField(String type, List<String> fields) implements ValueProblem {}

  record UnknownType(List<String> types) implements ValueProblem {}
}
