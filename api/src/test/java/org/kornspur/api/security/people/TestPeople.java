package org.kornspur.api.security.people;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Base64;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;

/**
 * Invented people for tests, one for each role, in a people file as the program itself writes it.
 * The two multipliers grow for enterprises of the demo, the two analysts test for its laboratories.
 */
public final class TestPeople {

  /** Grows for {@code ENT-MULT-WEST} of the demo. */
  public static final String WEST = "multiplier-west";

  /** Grows for {@code ENT-MULT-EAST} of the demo. */
  public static final String EAST = "multiplier-east";

  /** Tests for {@code ENT-LAB-TWO} of the demo. */
  public static final String LAB_TWO = "laboratory-two";

  /** Has the role of a laboratory and is bound to none. */
  public static final String UNBOUND_LABORATORY = "laboratory-unbound";

  private static final String PASSWORD = "an invented password, for tests";

  /** Hashing as for real people takes a good part of a second, and each test logs in. */
  private static final int ITERATIONS = 100;

  private static final PasswordHash HASH = PasswordHash.of(PASSWORD, ITERATIONS);

  private TestPeople() {}

  /** Puts the people file into a data folder. */
  public static void writeInto(Path dataFolder) {
    writeTo(dataFolder.resolve("people.json"));
  }

  public static void writeTo(Path file) {
    write(file, person -> true);
  }

  /** Leaves in a data folder, before its first start, only people who have none of the roles. */
  public static void leaveWithout(Set<Role> roles, Path dataFolder) throws IOException {
    Path file = dataFolder.resolve("people.json");
    Files.delete(file);
    write(file, person -> Collections.disjoint(person.roles(), roles));
  }

  private static void write(Path file, Predicate<Person> wanted) {
    List<Person> all =
        List.of(
            person(WEST, Role.MULTIPLIER, "ENT-MULT-WEST"),
            person(EAST, Role.MULTIPLIER, "ENT-MULT-EAST"),
            person(of(Role.MULTIPLIER), Role.MULTIPLIER, "ENT-1"),
            person(of(Role.INSPECTOR), Role.INSPECTOR, null),
            person(of(Role.LABORATORY), Role.LABORATORY, "ENT-LAB-ONE"),
            person(LAB_TWO, Role.LABORATORY, "ENT-LAB-TWO"),
            person(UNBOUND_LABORATORY, Role.LABORATORY, null),
            person(of(Role.QUALITY), Role.QUALITY, null),
            person(DemoPeople.MULTIPLIER.personId(), Role.MULTIPLIER, "ENT-MULT-HILL"),
            person(DemoPeople.LABORATORY.personId(), Role.LABORATORY, "ENT-LAB-TWO"),
            person(of(Role.AUDITOR), Role.AUDITOR, null),
            person(of(Role.ADMINISTRATOR), Role.ADMINISTRATOR, null),
            person(of(Role.MONITOR), Role.MONITOR, null),
            new Person(
                AsPerson.EVERYTHING,
                "Invented everything",
                EnumSet.of(Role.QUALITY, Role.ADMINISTRATOR),
                Optional.empty(),
                HASH,
                false,
                false,
                Instant.EPOCH));
    new PeopleFile(file)
        .change(
            people -> {
              all.stream().filter(wanted).forEach(person -> people.put(person.personId(), person));
              return people;
            });
  }

  /** Id of the person in a role. */
  public static String of(Role role) {
    return role.name().toLowerCase(Locale.ROOT);
  }

  /** What all of them log in with. */
  public static String password() {
    return PASSWORD;
  }

  /** Value of the Authorization header with which a person asks. */
  public static String basic(String personId) {
    return basic(personId, PASSWORD);
  }

  /** Value of the Authorization header for any person and password. */
  public static String basic(String personId, String password) {
    return "Basic "
        + Base64.getEncoder()
            .encodeToString((personId + ":" + password).getBytes(StandardCharsets.UTF_8));
  }

  private static Person person(String personId, Role role, String enterpriseId) {
    return new Person(
        personId,
        "Invented " + personId,
        Set.of(role),
        Optional.ofNullable(enterpriseId),
        HASH,
        false,
        false,
        Instant.EPOCH);
  }
}
