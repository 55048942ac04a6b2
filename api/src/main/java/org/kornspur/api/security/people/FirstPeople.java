package org.kornspur.api.security.people;

import java.io.PrintStream;
import java.nio.file.Files;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.api.security.Role;

/**
 * The people that the first start makes, on a site that has none. Their passwords are random and
 * good as they are; the console is the only place where they ever stand in clear.
 */
final class FirstPeople {
  private final String introduction;
  private final List<Person> people;
  private final Map<String, String> passwords;

  private FirstPeople(String introduction, List<Person> people, Map<String, String> passwords) {
    this.introduction = introduction;
    this.people = people;
    this.passwords = passwords;
  }

  /** One person for each role, each with a password of its own. */
  private static FirstPeople oneForEachRole() {
    Map<String, String> passwords =
        Arrays.stream(Role.values())
            .collect(Collectors.toMap(FirstPeople::idOf, role -> PasswordGenerator.made()));
    return new FirstPeople(
        """
        First start: one person for each role. Write these down now; they are not shown again.
        Each person should set another: POST /api/v1/account/password.
        """,
        Arrays.stream(Role.values())
            .map(
                role ->
                    person(
                        idOf(role),
                        Set.of(role),
                        Optional.empty(),
                        PasswordHash.of(passwords.get(idOf(role)))))
            .toList(),
        passwords);
  }

  /** The people of the demo, with one password for all that is another on each site. */
  private static FirstPeople ofDemo() {
    String password = PasswordGenerator.made();
    PasswordHash hash = PasswordHash.of(password);
    return new FirstPeople(
        """
        First start of a demo: one person for each role, with one password for all. Write it down
        now; it is not shown again. Enter no facts of your own here.
        """,
        Arrays.stream(DemoPeople.values())
            .map(one -> person(one.personId(), one.roles(), one.enterpriseId(), hash))
            .toList(),
        Arrays.stream(DemoPeople.values())
            .collect(Collectors.toMap(DemoPeople::personId, one -> password)));
  }

  private static String idOf(Role role) {
    return role.name().toLowerCase(Locale.ROOT);
  }

  private static Person person(
      String personId, Set<Role> roles, Optional<String> enterpriseId, PasswordHash hash) {
    String name = personId.replace('-', ' ');
    return new Person(
        personId,
        name.substring(0, 1).toUpperCase(Locale.ROOT) + name.substring(1),
        roles,
        enterpriseId,
        hash,
        false,
        false,
        Instant.now());
  }

  /** Ids of the people that a first start without demo makes. */
  static Set<String> ids() {
    return Arrays.stream(Role.values())
        .map(FirstPeople::idOf)
        .collect(Collectors.toUnmodifiableSet());
  }

  /**
   * Enters them where nobody is entered, and prints who they are; else does nothing.
   *
   * @param ofDemo whether those of the demo are wanted
   */
  static void make(boolean ofDemo, PeopleFile file, PrintStream console) {
    if (!Files.exists(file.path())) {
      (ofDemo ? ofDemo() : oneForEachRole()).enter(file, console);
    }
  }

  private void enter(PeopleFile file, PrintStream console) {
    boolean[] made = {false};
    file.change(
        kept -> {
          if (kept.isEmpty()) {
            people.forEach(person -> kept.put(person.personId(), person));
            made[0] = true;
          }
          return kept;
        });
    if (made[0]) {
      StringBuilder text = new StringBuilder("\n").append(introduction).append("\n");
      people.forEach(
          person ->
              text.append(
                  "  %-18s %s%n".formatted(person.personId(), passwords.get(person.personId()))));
      text.append("\nThe people file is ").append(file.path()).append("\n");
      console.println(text);
    }
  }
}
