package org.kornspur.api.problem;

import java.util.Optional;
import org.kornspur.ingest.problem.Given;

/** Why the people who may log in cannot be changed so. */
public sealed interface PeopleDetail extends Detail {
  record Unknown(Given person) implements PeopleDetail {}

  record NoAdministratorLeft() implements PeopleDetail {}

  /** Who manages the people may not decide on seed, where the site keeps the two apart. */
  record BothDuties() implements PeopleDetail {}

  /** Whose password another issued does not sign, nor speak for others, until somebody confirms. */
  record NotConfirmed(String issuerId) implements PeopleDetail {}

  record NoOwnPassword() implements PeopleDetail {}

  /** Neither the person nor who issued the password can confirm. */
  record NotByThemselves() implements PeopleDetail {}

  record KeptByIssuer(Optional<String> issuer) implements PeopleDetail {}
}
