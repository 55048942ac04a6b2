package org.kornspur.api.problem;

import java.util.Optional;
import org.kornspur.ingest.problem.Given;

/** Why the people who may log in cannot be changed so. */
public sealed interface PeopleDetail extends Detail {
  record Unknown(Given person) implements PeopleDetail {}

  record NoAdministratorLeft() implements PeopleDetail {}

  /** Who manages the people may not decide on seed, where the site keeps the two apart. */
  record BothDuties() implements PeopleDetail {}

  record KeptByIssuer(Optional<String> issuer) implements PeopleDetail {}
}
