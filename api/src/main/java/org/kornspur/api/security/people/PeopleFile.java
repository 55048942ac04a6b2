package org.kornspur.api.security.people;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import org.jboss.logging.Logger;
import org.kornspur.api.storage.SecretFile;

/**
 * The people of one machine, in a JSON file. Passwords stand in it hashed only. A change is written
 * whole, under a lock that processes share, and told in the journal before; what another process
 * changed is seen within a second.
 */
final class PeopleFile {
  private static final Logger LOG = Logger.getLogger(PeopleFile.class);
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .addModules(new Jdk8Module(), new JavaTimeModule())
          .enable(SerializationFeature.INDENT_OUTPUT)
          .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
          .build();
  private static final long LOOK_AGAIN_NANOS = 1_000_000_000L;

  private final Path path;
  private final PeopleJournal journal;
  private final Supplier<String> who;
  private Map<String, Person> people = Map.of();
  private byte[] readBytes;
  private long lookedAt;
  private String toldUnreadable = "";

  /** Changed before anybody can ask: what is done is done by the first start. */
  PeopleFile(Path path) {
    this(path, () -> JournalLine.FIRST_START);
  }

  /**
   * Changed by persons.
   *
   * @param who tells who asks for a change, for the journal
   */
  PeopleFile(Path path, Supplier<String> who) {
    this.path = path.toAbsolutePath().normalize();
    this.journal = PeopleJournal.beside(this.path);
    this.who = who;
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
    underLock(
        () -> {
          Map<String, Person> before = kept();
          Map<String, Person> changed = change.apply(new LinkedHashMap<>(before));
          tell(before, changed);
          SecretFile.replace(path, JSON.writeValueAsBytes(changed.values()));
          return changed;
        });
    readBytes = null;
  }

  private void tell(Map<String, Person> before, Map<String, Person> after) throws IOException {
    if (!journal.hasBegun()) {
      journal.append(who.get(), PeopleChange.keptBefore(before));
    }
    journal.append(who.get(), PeopleChange.between(before, after));
  }

  /** Puts into the journal what happens to a person outside this file. */
  synchronized void note(PeopleChange.Kind what, String personId) {
    underLock(
        () -> {
          Map<String, Person> people = kept();
          tell(people, people);
          journal.append(who.get(), List.of(PeopleChange.told(what, personId)));
          return people;
        });
  }

  /** Every change that was ever made, and whether the record of them is whole. */
  synchronized JournalReading journal() {
    return underLock(journal::read);
  }

  private interface Work<T> {
    T done() throws IOException;
  }

  private <T> T underLock(Work<T> work) {
    Path lockFile = path.resolveSibling(path.getFileName() + ".lock");
    try {
      Files.createDirectories(path.getParent());
      try (FileChannel channel =
              FileChannel.open(lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
          FileLock lock = channel.lock()) {
        if (!lock.isValid()) {
          throw new IOException(lockFile + " cannot be locked");
        }
        return work.done();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(
          "The people file " + path + " or its journal cannot be read or changed: " + e, e);
    }
  }

  /**
   * The whole file is read again, for its time may tell nothing: two changes within one tick of the
   * file system's clock, which is a second on some, have the same.
   */
  private Map<String, Person> current() {
    long now = System.nanoTime();
    if (readBytes == null || now - lookedAt > LOOK_AGAIN_NANOS) {
      byte[] bytes = bytes();
      if (!Arrays.equals(bytes, readBytes)) {
        people = people(bytes);
        readBytes = bytes;
      }
      lookedAt = now;
    }
    return people;
  }

  /** What the file has this moment; nobody where there is no file. */
  private Map<String, Person> kept() {
    return Files.exists(path) ? people(bytes()) : Map.of();
  }

  private byte[] bytes() {
    try {
      return Files.readAllBytes(path);
    } catch (IOException e) {
      throw unreadable(e.toString());
    }
  }

  private Map<String, Person> people(byte[] bytes) {
    Map<String, Person> people = new LinkedHashMap<>();
    try {
      for (Person person : JSON.readValue(bytes, new TypeReference<List<Person>>() {})) {
        people.put(person.personId(), person);
      }
    } catch (JsonProcessingException e) {
      JsonLocation at = e.getLocation();
      throw unreadable(
          (at == null ? "" : "line " + at.getLineNr() + ", column " + at.getColumnNr() + ": ")
              + e.getOriginalMessage());
    } catch (IOException e) {
      throw unreadable(e.toString());
    }
    toldUnreadable = "";
    return people;
  }

  /** Tells the log once what is wrong, and the caller that something is. */
  private PeopleUnreadable unreadable(String why) {
    if (!why.equals(toldUnreadable)) {
      LOG.errorf(
          "Nobody can log in: the people file %s cannot be read, %s. Mend it, or put back the file"
              + " of before; it is read again at once.",
          path, why);
      toldUnreadable = why;
    }
    return new PeopleUnreadable();
  }
}
