package org.kornspur.api.security.people;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.security.Role;

/**
 * What changed of a person, for the journal. A printed name must stay forgettable and a password
 * secret, and so of these it tells only that they changed.
 *
 * @param from value before; null where there was none, or none is told
 * @param to value after; null where there is none, or none is told
 */
public record PeopleChange(Kind what, String personId, String from, String to) {

  /** What can change. */
  @Schema(description = "What changed of a person")
  public enum Kind {
    /** The person was in the people file when the journal began. */
    KEPT_BEFORE,
    ADDED,
    ROLES,
    ENTERPRISE,
    /** From and to are true where the person may not come in. */
    DISABLED,
    PRINTED_NAME,
    PASSWORD,
    SESSIONS_ENDED,
    /**
     * From and to are the administrator who issued the password; to is null once somebody else
     * confirmed that the person set the own one.
     */
    CONFIRMATION,
    /** By no address; somebody may take a person out of the file by hand. */
    REMOVED,
    /** The printed name beside what the person signed. */
    SIGNER_NAME_FORGOTTEN,
    /** The line before says so, and whether it came to pass is not known. */
    FORGETTING_NOT_CONFIRMED
  }

  static PeopleChange told(Kind what, String personId) {
    return new PeopleChange(what, personId, null, null);
  }

  /** Everybody with what they have, for the beginning of a journal. */
  static List<PeopleChange> keptBefore(Map<String, Person> people) {
    return people.values().stream()
        .flatMap(person -> appeared(Kind.KEPT_BEFORE, person).stream())
        .toList();
  }

  /** What makes of the people before the people after. */
  static List<PeopleChange> between(Map<String, Person> before, Map<String, Person> after) {
    List<PeopleChange> changes = new ArrayList<>();
    for (Person person : after.values()) {
      Person was = before.get(person.personId());
      changes.addAll(was == null ? appeared(Kind.ADDED, person) : changed(was, person));
    }
    before.keySet().stream()
        .filter(personId -> !after.containsKey(personId))
        .forEach(personId -> changes.add(told(Kind.REMOVED, personId)));
    return changes;
  }

  private static List<PeopleChange> appeared(Kind how, Person person) {
    List<PeopleChange> changes = new ArrayList<>();
    changes.add(told(how, person.personId()));
    changes.add(new PeopleChange(Kind.ROLES, person.personId(), null, words(person.roles())));
    person
        .enterpriseId()
        .ifPresent(
            id -> changes.add(new PeopleChange(Kind.ENTERPRISE, person.personId(), null, id)));
    person
        .issuedBy()
        .ifPresent(
            id -> changes.add(new PeopleChange(Kind.CONFIRMATION, person.personId(), null, id)));
    if (person.disabled()) {
      changes.add(new PeopleChange(Kind.DISABLED, person.personId(), null, "true"));
    }
    return changes;
  }

  private static List<PeopleChange> changed(Person was, Person is) {
    List<PeopleChange> changes = new ArrayList<>();
    addIfOther(changes, Kind.ROLES, was, is, person -> words(person.roles()));
    addIfOther(changes, Kind.ENTERPRISE, was, is, person -> person.enterpriseId().orElse(null));
    addIfOther(changes, Kind.DISABLED, was, is, person -> String.valueOf(person.disabled()));
    if (!was.printedName().equals(is.printedName())) {
      changes.add(told(Kind.PRINTED_NAME, is.personId()));
    }
    if (!was.password().equals(is.password())) {
      changes.add(told(Kind.PASSWORD, is.personId()));
    }
    addIfOther(changes, Kind.CONFIRMATION, was, is, person -> person.issuedBy().orElse(null));
    if (changes.isEmpty() && !was.sessionsFrom().equals(is.sessionsFrom())) {
      changes.add(told(Kind.SESSIONS_ENDED, is.personId()));
    }
    return changes;
  }

  private static void addIfOther(
      List<PeopleChange> changes,
      Kind what,
      Person was,
      Person is,
      Function<Person, String> value) {
    String from = value.apply(was);
    String to = value.apply(is);
    if (!Objects.equals(from, to)) {
      changes.add(new PeopleChange(what, is.personId(), from, to));
    }
  }

  private static String words(Set<Role> roles) {
    return new TreeSet<>(roles).stream().map(Role::name).collect(Collectors.joining(", "));
  }
}
