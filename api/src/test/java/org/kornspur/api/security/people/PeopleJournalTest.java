package org.kornspur.api.security.people;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.PeopleChange.Kind;

/**
 * Changes of people leave a trace that holds.
 *
 * <p>Source: 21 CFR 11.10(e), who did what and when; changes shall not obscure what was recorded.
 */
@Tag("slow")
class PeopleJournalTest {
  private static final PasswordHash HASH = new PasswordHash("pbkdf2-sha512$1$c2FsdA==$aGFzaA==");

  @TempDir Path folder;

  private PeopleFile file() {
    return new PeopleFile(folder.resolve("people.json"), () -> "administrator");
  }

  private Path path() {
    return folder.resolve("people.journal");
  }

  @Test
  void eachChangeLeavesItsLineWithBothValuesAndNoNameOrPassword() throws Exception {
    PeopleFile file = file();
    Person added = person("inspector-04", "Invented Inspector", Role.INSPECTOR);
    put(file, added);
    put(file, other(added, Set.of(Role.QUALITY, Role.INSPECTOR), Optional.of("ENT-1")));
    change(file, person -> person.withDisabled(true, Instant.now()));
    change(file, person -> person.withDisabled(false, Instant.now()));
    change(
        file,
        person ->
            person.withPassword(
                new PasswordHash("pbkdf2-sha512$1$c2FsdA==$b3RoZXI="), Instant.now()));
    change(file, person -> person.withSessionsFrom(Instant.now().plusSeconds(1)));
    change(
        file,
        person ->
            new Person(
                person.personId(),
                "Invented Married",
                person.roles(),
                person.enterpriseId(),
                person.password(),
                person.issued(),
                person.disabled(),
                person.sessionsFrom()));
    file.note(Kind.SIGNER_NAME_FORGOTTEN, "inspector-04");

    JournalReading journal = file.journal();
    assertThat(told(journal))
        .containsExactly(
            "ADDED null null",
            "ROLES null INSPECTOR",
            "ROLES INSPECTOR INSPECTOR, QUALITY",
            "ENTERPRISE null ENT-1",
            "DISABLED false true",
            "DISABLED true false",
            "PASSWORD null null",
            "SESSIONS_ENDED null null",
            "PRINTED_NAME null null",
            "SIGNER_NAME_FORGOTTEN null null");
    assertThat(journal.lines())
        .allSatisfy(
            line -> {
              assertThat(line.by()).isEqualTo("administrator");
              assertThat(line.personId()).isEqualTo("inspector-04");
              assertThat(Instant.parse(line.at())).isBefore(Instant.now().plusSeconds(1));
            });
    assertThat(journal.broken()).isEmpty();
    assertThat(Files.readString(path())).doesNotContain("Invented", "pbkdf2", "c2FsdA");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(path())))
        .isEqualTo("rw-------");
  }

  @Test
  void aChangeThatIsRefusedLeavesNoLine() {
    PeopleFile file = file();
    put(file, person("a", "A", Role.AUDITOR));
    int before = file.journal().lines().size();
    try {
      file.change(
          people -> {
            people.clear();
            throw new IllegalStateException("refused");
          });
    } catch (IllegalStateException refused) {
      assertThat(refused).hasMessage("refused");
    }
    assertThat(file.journal().lines()).hasSize(before);
  }

  @Test
  void aFileOfAnEarlierVersionIsTakenUpAtTheFirstChange() throws Exception {
    PeopleFile file = file();
    put(file, person("a", "A", Role.AUDITOR));
    Files.delete(path());
    Files.delete(folder.resolve("people.journal.head"));
    put(file, person("b", "B", Role.QUALITY));
    assertThat(told(file.journal()))
        .containsExactly(
            "KEPT_BEFORE null null", "ROLES null AUDITOR", "ADDED null null", "ROLES null QUALITY");
    assertThat(file.journal().broken()).isEmpty();
  }

  @Test
  void theFirstStartIsToldToo() {
    Path people = folder.resolve("people.json");
    FirstPeople.make(
        false,
        new PeopleFile(people),
        new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8));
    assertThat(new PeopleFile(people).journal().lines())
        .hasSize(2 * Role.values().length)
        .allMatch(line -> line.by().equals("first start"));
  }

  @Test
  void whateverByteIsFlippedItsLineIsNamed() throws Exception {
    byte[] whole = written();
    for (int at = 0, line = 1; at < whole.length; at++) {
      byte[] altered = whole.clone();
      altered[at] ^= 1;
      Files.write(path(), altered);
      assertThat(broken()).as("byte %d", at).contains((long) line);
      line += whole[at] == '\n' ? 1 : 0;
    }
    Files.write(path(), whole);
    assertThat(broken()).isEmpty();
  }

  @Test
  void aLineTakenOutPutInOrMovedIsNamed() throws Exception {
    List<String> whole = new String(written(), StandardCharsets.UTF_8).lines().toList();
    for (int i = 0; i < whole.size(); i++) {
      List<String> without = new ArrayList<>(whole);
      without.remove(i);
      assertThat(broken(without)).as("without line %d", i + 1).contains(i + 1L);

      List<String> twice = new ArrayList<>(whole);
      twice.add(i, whole.get(i));
      assertThat(broken(twice)).as("line %d twice", i + 1).contains(i + 2L);
    }
    for (int i = 1; i < whole.size(); i++) {
      List<String> swapped = new ArrayList<>(whole);
      Collections.swap(swapped, i - 1, i);
      assertThat(broken(swapped)).as("line %d moved", i).contains((long) i);
    }
    assertThat(broken(List.of())).as("all taken out").contains(1L);
  }

  /** What a fall leaves of a line was never followed by its change. */
  @Test
  void aLineThatAFallCutShortGivesWayToTheNext() throws Exception {
    byte[] whole = written();
    Files.writeString(path(), "{\"number\":", StandardOpenOption.APPEND);
    assertThat(broken()).isPresent();
    put(file(), person("after", "After", Role.AUDITOR));
    assertThat(broken()).isEmpty();
    assertThat(Files.readAllBytes(path())).startsWith(whole);
  }

  @Test
  void aLineTakenOutLeavesItsGapThoughOthersFollow() throws Exception {
    List<String> whole = new String(written(), StandardCharsets.UTF_8).lines().toList();
    assertThat(broken(whole.subList(0, whole.size() - 1))).contains((long) whole.size());
    put(file(), person("after", "After", Role.AUDITOR));
    assertThat(broken()).contains((long) whole.size());
  }

  @Test
  @Timeout(120)
  void twoProcessesDoNotTearIt() throws Exception {
    List<Process> writers = new ArrayList<>();
    for (String name : List.of("one", "two")) {
      writers.add(
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  classPath(),
                  Writer.class.getName(),
                  folder.toString(),
                  name)
              .inheritIO()
              .start());
    }
    for (Process writer : writers) {
      assertThat(writer.waitFor(100, TimeUnit.SECONDS)).isTrue();
      assertThat(writer.exitValue()).isZero();
    }
    JournalReading journal = file().journal();
    assertThat(journal.broken()).isEmpty();
    assertThat(journal.lines()).hasSize(2 * 2 * Writer.PEOPLE);
    Map<String, Long> byWriter =
        journal.lines().stream()
            .collect(Collectors.groupingBy(JournalLine::by, Collectors.counting()));
    assertThat(byWriter)
        .containsOnly(Map.entry("one", 2L * Writer.PEOPLE), Map.entry("two", 2L * Writer.PEOPLE));
    assertThat(file().all()).hasSize(2 * Writer.PEOPLE);
  }

  /** Another process of one people file. */
  static final class Writer {
    static final int PEOPLE = 50;

    private Writer() {}

    public static void main(String[] folderAndName) {
      PeopleFile file =
          new PeopleFile(Path.of(folderAndName[0], "people.json"), () -> folderAndName[1]);
      for (int i = 0; i < PEOPLE; i++) {
        put(file, person(folderAndName[1] + "-" + i, "Invented", Role.AUDITOR));
      }
    }
  }

  private static String classPath() {
    String own =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    return Stream.of(own.split(File.pathSeparator, -1))
        .map(entry -> Path.of(entry).toAbsolutePath().toString())
        .collect(Collectors.joining(File.pathSeparator));
  }

  private byte[] written() throws Exception {
    PeopleFile file = file();
    put(file, person("a", "A", Role.AUDITOR));
    put(file, person("b", "B", Role.QUALITY));
    put(file, person("a", "A", Role.LABORATORY));
    return Files.readAllBytes(path());
  }

  private Optional<Long> broken(List<String> lines) throws Exception {
    Files.write(path(), lines);
    return broken();
  }

  private Optional<Long> broken() {
    return file().journal().broken().map(JournalReading.Break::line);
  }

  private static List<String> told(JournalReading journal) {
    return journal.lines().stream()
        .map(line -> line.what() + " " + line.from() + " " + line.to())
        .toList();
  }

  private static void put(PeopleFile file, Person person) {
    file.change(
        people -> {
          people.put(person.personId(), person);
          return people;
        });
  }

  private static void change(PeopleFile file, UnaryOperator<Person> change) {
    file.change(
        people -> {
          people.computeIfPresent("inspector-04", (id, person) -> change.apply(person));
          return people;
        });
  }

  private static Person other(Person person, Set<Role> roles, Optional<String> enterpriseId) {
    return new Person(
        person.personId(),
        person.printedName(),
        roles,
        enterpriseId,
        person.password(),
        person.issued(),
        person.disabled(),
        person.sessionsFrom());
  }

  private static Person person(String personId, String printedName, Role role) {
    return new Person(
        personId, printedName, Set.of(role), Optional.empty(), HASH, false, false, Instant.EPOCH);
  }
}
