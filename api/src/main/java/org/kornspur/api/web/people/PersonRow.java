package org.kornspur.api.web.people;

import java.util.List;
import org.kornspur.api.security.people.Person;
import org.kornspur.api.text.Addresses;

/**
 * A person in the list.
 *
 * @param roles by their names
 * @param enterpriseId empty where bound to none
 */
public record PersonRow(
    String personId,
    String printedName,
    List<String> roles,
    String enterpriseId,
    State state,
    String href) {

  /** Whether somebody comes in. */
  public enum State {
    MAY_LOG_IN,
    /** With the issued password alone, until another is set. */
    HAS_ISSUED_PASSWORD,
    BLOCKED;

    static State of(Person person) {
      return person.disabled() ? BLOCKED : person.issued() ? HAS_ISSUED_PASSWORD : MAY_LOG_IN;
    }
  }

  static PersonRow of(Person person) {
    return new PersonRow(
        person.personId(),
        person.printedName(),
        person.roles().stream().map(Enum::name).toList(),
        person.enterpriseId().orElse(""),
        State.of(person),
        href(person.personId()));
  }

  static String href(String personId) {
    return PeoplePage.ROOT + "/person/" + Addresses.part(personId);
  }
}
