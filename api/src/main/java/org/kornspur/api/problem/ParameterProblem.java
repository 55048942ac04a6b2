package org.kornspur.api.problem;

import java.util.List;
import org.kornspur.ingest.statement.Value.Amount;

/** What a parameter of an address must be. */
public sealed interface ParameterProblem extends RequestReason {
  record WholeNumber(int least, int most) implements ParameterProblem {}

  record Decimal(Amount least, Amount most) implements ParameterProblem {}

  record OneOf(List<String> values) implements ParameterProblem {}

  record Together(List<String> names) implements ParameterProblem {}

  record TooLong(int most) implements ParameterProblem {}

  record TextLength(int least, int most) implements ParameterProblem {}

  record NoTime() implements ParameterProblem {}

  record NoDay() implements ParameterProblem {}

  /** No crop and no source of pollen. */
  record NoGround() implements ParameterProblem {}

  record NoPlace() implements ParameterProblem {}

  record OtherName(List<String> names) implements ParameterProblem {}

  record NoneHere() implements ParameterProblem {}

  record NoPageToken() implements ParameterProblem {}

  record MassForEachLot(int most) implements ParameterProblem {}

  record Kilograms(Amount least, Amount most) implements ParameterProblem {}

  record NoMailAddress() implements ParameterProblem {}

  record NoWebAddress() implements ParameterProblem {}

  /** An address of the own network, or one without TLS. */
  record ClosedWebAddress() implements ParameterProblem {}

  record NoMailServer() implements ParameterProblem {}

  /** The mail server did not take the message. */
  record NotDelivered(String said) implements ParameterProblem {}

  record TooManyCodes(int most) implements ParameterProblem {}

  /** Not the code that was sent to the address. */
  record WrongCode() implements ParameterProblem {}

  record AmbiguousNumber(String grouped, String decimal) implements ParameterProblem {}
}
