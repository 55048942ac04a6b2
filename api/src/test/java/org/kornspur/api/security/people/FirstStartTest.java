package org.kornspur.api.security.people;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.Base64;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.security.Role;

/** The first start of one machine, and how passwords are kept. */
@Tag("slow")
class FirstStartTest {
  private static final Path ENTERPRISES =
      Path.of("..", "demo-events", "2022", "EnterpriseDeclared.csv");

  private static final Pattern LINE = Pattern.compile("(?m)^  ([\\w-]+) +(\\S+)$");

  /**
   * A published test vector of PBKDF2-HMAC-SHA-512 (password "password", salt "salt", one
   * iteration, 64 bytes), from memory, and computed again with Python's hashlib.
   */
  @Test
  void passwordsAreHashedAsTheStandardSays() {
    String expected =
        "867f70cf1ade02cff3752599a3a53dc4af34c7a669815ae5d513554e1c8cf252"
            + "c02d470a285a0501bad999bfe943c08f050235d7d68b1da55e63f73b60a57fce";
    PasswordHash published =
        new PasswordHash(
            "pbkdf2-sha512$1$"
                + Base64.getEncoder().encodeToString("salt".getBytes(StandardCharsets.UTF_8))
                + "$"
                + Base64.getEncoder().encodeToString(HexFormat.of().parseHex(expected)));
    assertThat(published.matches("password")).isTrue();
    assertThat(published.matches("passwore")).isFalse();
  }

  @Test
  void aPasswordIsKeptAtTheCostThatOwaspNamesAndUnderASaltOfItsOwn() {
    PasswordHash once = PasswordHash.of("an invented one");
    PasswordHash again = PasswordHash.of("an invented one");
    assertThat(once.text()).startsWith("pbkdf2-sha512$210000$").isNotEqualTo(again.text());
    assertThat(once.matches("an invented one")).isTrue();
    assertThat(once.toString()).doesNotContain(once.text());
  }

  @Test
  void theFirstStartPrintsOnePasswordForEachRoleOnceAndKeepsNone(@TempDir Path folder)
      throws Exception {
    Path file = folder.resolve("people.json");
    Map<String, String> printed = printed(file);
    assertThat(printed.keySet())
        .containsExactly(
            "multiplier",
            "inspector",
            "laboratory",
            "quality",
            "auditor",
            "administrator",
            "monitor");
    assertThat(Set.copyOf(printed.values())).hasSize(Role.values().length);

    String kept = Files.readString(file);
    printed.forEach(
        (person, password) -> {
          assertThat(password).matches("([a-z2-9]{6}-){3}[a-z2-9]{6}");
          assertThat(kept).contains(person).doesNotContain(password);
          assertThat(new PeopleFile(file).find(person).orElseThrow().password().matches(password))
              .isTrue();
        });
    assertThat(new PeopleFile(file).all()).as("one's own passwords").noneMatch(Person::issued);
    assertThat(kept).doesNotContain("issued");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
    assertThat(printed(file)).as("the second start").isEmpty();
    assertThat(Files.readString(file)).isEqualTo(kept);
  }

  private static Map<String, String> printed(Path file) {
    return printed(false, file);
  }

  private static Map<String, String> printed(boolean ofDemo, Path file) {
    ByteArrayOutputStream console = new ByteArrayOutputStream();
    FirstPeople.make(
        ofDemo, new PeopleFile(file), new PrintStream(console, true, StandardCharsets.UTF_8));
    return LINE.matcher(console.toString(StandardCharsets.UTF_8))
        .results()
        .collect(
            Collectors.toMap(
                (MatchResult line) -> line.group(1),
                line -> line.group(2),
                (one, other) -> one,
                LinkedHashMap::new));
  }

  /** The pages of a grower and of a laboratory are empty for who belongs to none. */
  @Test
  void theFirstStartOfADemoMakesPeopleOfItsEnterprises(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("people.json");
    Map<String, String> printed = printed(true, file);

    assertThat(printed.keySet()).allMatch(id -> id.startsWith("demo-")).hasSize(6);
    String enterprises = Files.readString(ENTERPRISES);
    PeopleFile people = new PeopleFile(file);
    String password = printed.get(DemoPeople.QUALITY.personId());
    PasswordHash hash = people.find(DemoPeople.QUALITY.personId()).orElseThrow().password();
    assertThat(hash.matches(password)).isTrue();
    for (DemoPeople one : DemoPeople.values()) {
      Person person = people.find(one.personId()).orElseThrow();
      assertThat(person.roles()).containsExactly(one.role());
      assertThat(printed.get(one.personId())).isEqualTo(password);
      assertThat(person.password()).as("derived once").isEqualTo(hash);
      if (one.role() == Role.MULTIPLIER || one.role() == Role.LABORATORY) {
        assertThat(enterprises).contains("," + person.enterpriseId().orElseThrow() + ",");
        assertThat(enterprises)
            .containsPattern(person.enterpriseId().orElseThrow() + ",[^,]*," + one.role());
      }
    }
    Path other = folder.resolve("other.json");
    assertThat(printed(true, other).values())
        .as("no password is that of another site")
        .doesNotContainAnyElementsOf(printed.values());
  }

  @Test
  void aSiteThatHasPeopleGetsNoneOfTheDemo(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("people.json");
    TestPeople.writeTo(file);
    String before = Files.readString(file);

    assertThat(printed(true, file)).isEmpty();
    assertThat(Files.readString(file)).isEqualTo(before);
  }

  @Test
  void onlyPeopleOfTheDemoWhoMayLogInAreNamed(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("people.json");
    printed(true, file);
    PeopleFile people = new PeopleFile(file);
    people.change(
        kept -> {
          kept.computeIfPresent(
              "demo-auditor", (id, person) -> person.withDisabled(true, Instant.now()));
          kept.remove("demo-quality");
          return kept;
        });

    assertThat(DemoPeople.among(people.all()))
        .containsExactly(
            DemoPeople.MULTIPLIER,
            DemoPeople.INSPECTOR,
            DemoPeople.LABORATORY,
            DemoPeople.ADMINISTRATOR);
  }

  /** So that a running site goes on. */
  @Test
  void passwordsOfEarlierVersionsAreOnesOwn(@TempDir Path folder) throws Exception {
    Path earlier = folder.resolve("earlier.json");
    Files.writeString(
        earlier,
        """
        [{"personId": "quality", "printedName": "Quality", "roles": ["QUALITY"],
          "enterpriseId": null, "password": "pbkdf2-sha512$1$c2FsdA==$c2FsdA==",
          "disabled": false, "sessionsFrom": "1970-01-01T00:00:00Z"}]\
        """);
    assertThat(new PeopleFile(earlier).find("quality").orElseThrow().issued()).isFalse();
  }

  /** Also where both changes fell into one tick of the file system's clock. */
  @Test
  void whatAnotherProcessChangedIsSeen(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("people.json");
    TestPeople.writeTo(file);
    PeopleFile here = new PeopleFile(file);
    assertThat(here.find("auditor").orElseThrow().disabled()).isFalse();
    FileTime before = Files.getLastModifiedTime(file);
    new PeopleFile(file)
        .change(
            people -> {
              people.computeIfPresent(
                  "auditor", (id, person) -> person.withDisabled(true, Instant.now()));
              return people;
            });
    Files.setLastModifiedTime(file, before);
    Thread.sleep(1_100);
    assertThat(here.find("auditor").orElseThrow().disabled()).isTrue();
  }
}
