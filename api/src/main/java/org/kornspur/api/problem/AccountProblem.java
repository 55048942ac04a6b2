package org.kornspur.api.problem;

import java.util.List;
import org.kornspur.ingest.statement.Value.Person;

/** What is needed of a person, to log in, to sign and to be entered. */
public sealed interface AccountProblem extends RequestReason {
  record NoPassword() implements AccountProblem {}

  record WrongPassword(Person person) implements AccountProblem {}

  record NoLogInTime(String claim) implements AccountProblem {}

  record LogInTooLongAgo(int seconds) implements AccountProblem {}

  record PasswordLength(int least, int most) implements AccountProblem {}

  record SamePassword() implements AccountProblem {}

  record NoText() implements AccountProblem {}

  record NameTooLong(int most) implements AccountProblem {}

  record NoPersonId() implements AccountProblem {}

  record NoEnterpriseId() implements AccountProblem {}

  record NoRole(List<String> roles) implements AccountProblem {}

  record UnknownRole(List<String> roles) implements AccountProblem {}

  record PersonIdTaken() implements AccountProblem {}
}
