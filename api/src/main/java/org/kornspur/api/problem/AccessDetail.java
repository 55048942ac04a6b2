package org.kornspur.api.problem;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Value.Person;

/** Why somebody does not come in, or may not do this. */
public sealed interface AccessDetail extends Detail {
  record NotLoggedIn() implements AccessDetail {}

  record NoPersonAndPassword() implements AccessDetail {}

  record WrongPassword() implements AccessDetail {}

  /** The administrator knows the password too. */
  record IssuedPassword() implements AccessDetail {}

  /** Where duties are kept apart, whose password another issued waits for a third. */
  record NotConfirmed(String issuerId) implements AccessDetail {}

  record InstancesOnly() implements AccessDetail {}

  record NobodyMay() implements AccessDetail {}

  record OtherRoles(List<? extends Enum<?>> own, List<? extends Enum<?>> allowed)
      implements AccessDetail {}

  record MayNotRecord() implements AccessDetail {}

  /** A page of another site used the log-in of this browser. */
  record ForgedRequest() implements AccessDetail {}

  record ForgedLogIn() implements AccessDetail {}

  record NoFormToken() implements AccessDetail {}

  record TooManyWithoutLogIn(long most, String address) implements AccessDetail {}

  record TooManyOfPerson(long most, Person person) implements AccessDetail {}

  record TooManyLogIns() implements AccessDetail {}

  record TooManyWrong(String address, long ofPerson, long most) implements AccessDetail {}

  record TooManyWrongForPerson(long most) implements AccessDetail {}

  record TooManyBodies() implements AccessDetail {}

  record UnreadableToken() implements AccessDetail {}

  record UntrustedToken(Optional<String> issuer) implements AccessDetail {}

  record TokenWithoutClaims() implements AccessDetail {}

  record TokenWithoutPerson(Given claim) implements AccessDetail {}

  record IssuerSilent() implements AccessDetail {}

  record PeopleUnreadable() implements AccessDetail {}
}
