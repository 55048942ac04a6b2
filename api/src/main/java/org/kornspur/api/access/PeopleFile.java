package org.kornspur.api.access;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * The people of one machine, in a JSON file. Passwords stand in it hashed only. A change is written
 * whole, under a lock that processes share; what another process changed is seen within a second.
 */
final class PeopleFile {
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
  private static final byte[] NOBODY = "[]".getBytes(StandardCharsets.UTF_8);
  private static final long LOOK_AGAIN_NANOS = 1_000_000_000L;

  private final Path path;
  private Map<String, Person> people = Map.of();
  private byte[] readBytes;
  private long lookedAt;

  PeopleFile(Path path) {
    this.path = path.toAbsolutePath().normalize();
  }

  /** A person as the file has it; files of earlier versions do not say issued. */
  record Line(
      String personId,
      String printedName,
      Set<Role> roles,
      String enterpriseId,
      String password,
      @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean issued,
      boolean disabled,
      String sessionsFrom) {

    static Line of(Person person) {
      return new Line(
          person.personId(),
          person.printedName(),
          person.roles(),
          person.enterpriseId().orElse(null),
          person.password().text(),
          person.issued(),
          person.disabled(),
          person.sessionsFrom().toString());
    }

    Person person() {
      return new Person(
          personId,
          printedName,
          roles,
          Optional.ofNullable(enterpriseId),
          new PasswordHash(password),
          issued,
          disabled,
          Instant.parse(sessionsFrom));
    }
  }

  Path path() {
    return path;
  }

  synchronized Optional<Person> find(String personId) {
    return Optional.ofNullable(current().get(personId));
  }

  /** The same, read from the file this moment. */
  synchronized Optional<Person> findAnew(String personId) {
    readBytes = null;
    return find(personId);
  }

  synchronized Collection<Person> all() {
    return current().values();
  }

  /**
   * Changes the file.
   *
   * @param change from the people as they are to the people as they are to be; may throw to leave
   *     all as it was
   */
  synchronized void change(UnaryOperator<Map<String, Person>> change) {
    Path lockFile = path.resolveSibling(path.getFileName() + ".lock");
    try {
      Files.createDirectories(path.getParent());
      try (FileChannel channel =
              FileChannel.open(lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
          FileLock lock = channel.lock()) {
        if (lock.isValid()) {
          byte[] bytes = Files.exists(path) ? Files.readAllBytes(path) : NOBODY;
          Map<String, Person> changed = change.apply(people(bytes));
          SecretFile.replace(
              path, JSON.writeValueAsBytes(changed.values().stream().map(Line::of).toList()));
        }
      }
      readBytes = null;
    } catch (IOException e) {
      throw new UncheckedIOException("The people file " + path + " cannot be changed: " + e, e);
    }
  }

  /**
   * The whole file is read again, for its time may tell nothing: two changes within one tick of the
   * file system's clock, which is a second on some, have the same.
   */
  private Map<String, Person> current() {
    long now = System.nanoTime();
    if (readBytes == null || now - lookedAt > LOOK_AGAIN_NANOS) {
      try {
        byte[] bytes = Files.readAllBytes(path);
        if (!Arrays.equals(bytes, readBytes)) {
          people = people(bytes);
          readBytes = bytes;
        }
        lookedAt = now;
      } catch (IOException e) {
        throw new UncheckedIOException("The people file " + path + " cannot be read: " + e, e);
      }
    }
    return people;
  }

  private static Map<String, Person> people(byte[] bytes) throws IOException {
    Map<String, Person> people = new LinkedHashMap<>();
    for (Line line : JSON.readValue(bytes, new TypeReference<List<Line>>() {})) {
      people.put(line.personId(), line.person());
    }
    return people;
  }
}
