package org.kornspur.api.web.people;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.security.people.Person;

/**
 * The form of a person as it is shown.
 *
 * @param state empty of a new person
 * @param roles names of those that are chosen
 * @param toBeConfirmedAfter administrator who issued the password; empty where nobody has to
 *     confirm
 * @param refusals why the last form was not taken, each in a sentence
 */
public record PersonFormView(
    String href,
    String personId,
    String printedName,
    Set<String> roles,
    String enterpriseId,
    Optional<PersonRow.State> state,
    Optional<String> toBeConfirmedAfter,
    List<String> refusals) {

  static PersonFormView empty() {
    return new PersonFormView(
        PeoplePage.ROOT + "/new",
        "",
        "",
        Set.of(),
        "",
        Optional.empty(),
        Optional.empty(),
        List.of());
  }

  static PersonFormView of(Person person) {
    return new PersonFormView(
        PersonRow.href(person.personId()),
        person.personId(),
        person.printedName(),
        person.roles().stream().map(Enum::name).collect(Collectors.toSet()),
        person.enterpriseId().orElse(""),
        Optional.of(PersonRow.State.of(person)),
        person.issuedBy(),
        List.of());
  }

  /** With what was typed, and why it was not taken. */
  PersonFormView refused(FormFields typed, List<String> why) {
    return new PersonFormView(
        href,
        state.isPresent() ? personId : typed.first("personId").orElse(""),
        typed.first("printedName").orElse(""),
        new TreeSet<>(typed.all("roles")),
        typed.first("enterpriseId").orElse(""),
        state,
        toBeConfirmedAfter,
        why);
  }

  /** With why something else was not done. */
  PersonFormView refused(List<String> why) {
    return new PersonFormView(
        href, personId, printedName, roles, enterpriseId, state, toBeConfirmedAfter, why);
  }

  public boolean isNew() {
    return state.isEmpty();
  }

  public boolean isBlocked() {
    return state.filter(PersonRow.State.BLOCKED::equals).isPresent();
  }

  /** Every role there is. */
  public List<String> allRoles() {
    return Arrays.stream(Role.values()).map(Enum::name).toList();
  }

  public boolean has(String role) {
    return roles.contains(role);
  }

  /** Whether a chosen role shows nothing without an enterprise. */
  public boolean lacksEnterprise() {
    return enterpriseId.isEmpty() && (has(Role.MULTIPLIER.name()) || has(Role.LABORATORY.name()));
  }
}
