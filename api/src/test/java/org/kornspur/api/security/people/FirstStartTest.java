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
  private static final Pattern LINE = Pattern.compile("(?m)^  (\\w+) +(\\S+)$");

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
            "multiplier", "inspector", "laboratory", "quality", "auditor", "administrator");
    assertThat(Set.copyOf(printed.values())).hasSize(Role.values().length);

    String kept = Files.readString(file);
    printed.forEach(
        (person, password) -> {
          assertThat(password).matches("([a-z2-9]{6}-){3}[a-z2-9]{6}");
          assertThat(kept).contains(person).doesNotContain(password);
          assertThat(new PeopleFile(file).find(person).orElseThrow().password().matches(password))
              .isTrue();
        });
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
    assertThat(printed(file)).as("the second start").isEmpty();
    assertThat(Files.readString(file)).isEqualTo(kept);
  }

  private static Map<String, String> printed(Path file) {
    ByteArrayOutputStream console = new ByteArrayOutputStream();
    People.makeFirst(new PeopleFile(file), new PrintStream(console, true, StandardCharsets.UTF_8));
    return LINE.matcher(console.toString(StandardCharsets.UTF_8))
        .results()
        .collect(
            Collectors.toMap(
                (MatchResult line) -> line.group(1),
                line -> line.group(2),
                (one, other) -> one,
                LinkedHashMap::new));
  }

  /** So that a running site goes on, and a demo begins. */
  @Test
  void passwordsOfEarlierVersionsAndOfTheFirstStartAreOnesOwn(@TempDir Path folder)
      throws Exception {
    Path earlier = folder.resolve("earlier.json");
    Files.writeString(
        earlier,
        """
        [{"personId": "quality", "printedName": "Quality", "roles": ["QUALITY"],
          "enterpriseId": null, "password": "pbkdf2-sha512$1$c2FsdA==$c2FsdA==",
          "disabled": false, "sessionsFrom": "1970-01-01T00:00:00Z"}]""");
    assertThat(new PeopleFile(earlier).find("quality").orElseThrow().issued()).isFalse();

    Path first = folder.resolve("people.json");
    printed(first);
    assertThat(new PeopleFile(first).all()).noneMatch(Person::issued);
    assertThat(Files.readString(first)).doesNotContain("issued");
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
