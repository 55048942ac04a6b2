package org.kornspur.api.access;

import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
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
  private static final long LOOK_AGAIN_NANOS = 1_000_000_000L;

  private final Path path;
  private Map<String, Person> people = Map.of();
  private FileTime readVersion;
  private long lookedAt;

  PeopleFile(Path path) {
    this.path = path.toAbsolutePath().normalize();
  }

  /** A person as the file has it. */
  record Line(
      String personId,
      String printedName,
      Set<Role> roles,
      String enterpriseId,
      String password,
      boolean disabled,
      String sessionsFrom) {

    static Line of(Person person) {
      return new Line(
          person.personId(),
          person.printedName(),
          person.roles(),
          person.enterpriseId().orElse(null),
          person.password().text(),
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
          Map<String, Person> changed = change.apply(new LinkedHashMap<>(read()));
          SecretFile.replace(
              path, JSON.writeValueAsBytes(changed.values().stream().map(Line::of).toList()));
        }
      }
      readVersion = null;
      lookedAt = 0;
    } catch (IOException e) {
      throw new UncheckedIOException("The people file " + path + " cannot be changed: " + e, e);
    }
  }

  private Map<String, Person> current() {
    long now = System.nanoTime();
    if (readVersion == null || now - lookedAt > LOOK_AGAIN_NANOS) {
      try {
        FileTime version = Files.getLastModifiedTime(path);
        if (!version.equals(readVersion)) {
          people = read();
          readVersion = version;
        }
        lookedAt = now;
      } catch (IOException e) {
        throw new UncheckedIOException("The people file " + path + " cannot be read: " + e, e);
      }
    }
    return people;
  }

  private Map<String, Person> read() throws IOException {
    Map<String, Person> read = new LinkedHashMap<>();
    if (Files.exists(path)) {
      for (Line line :
          JSON.readValue(Files.readAllBytes(path), new TypeReference<List<Line>>() {})) {
        read.put(line.personId(), line.person());
      }
    }
    return read;
  }
}
