package org.kornspur.api.security.people;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.security.people.JournalReading.Head;
import org.kornspur.api.storage.SecretFile;
import org.kornspur.ingest.contract.Fingerprint;

/**
 * Every change of the people, one line of JSON each, only ever appended to. A line holds the hash
 * of the line before, and a second file the number and hash of the last, so that a line that was
 * altered, taken out, put in or moved shows. Whoever may write both files can write all again: that
 * shows only to who noted a head elsewhere.
 *
 * <p>Lines are on disk before the change that they tell of. After a fall between the two, a line
 * tells of a change that was not made; the next of that person then begins at the value before.
 *
 * <p>To be called under the lock of the people file.
 */
final class PeopleJournal {

  /** Stands for the hash of the line before in the first. */
  static final String NOTHING = "0".repeat(64);

  private static final ObjectMapper JSON =
      new ObjectMapper().enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);
  private static final int CHUNK = 4096;

  private final Path path;
  private final Path headPath;
  private final Clock clock = Clock.systemUTC();

  PeopleJournal(Path path) {
    this.path = path;
    this.headPath = path.resolveSibling(path.getFileName() + ".head");
  }

  /** The journal beside a people file, as {@code people.journal} beside {@code people.json}. */
  static PeopleJournal beside(Path peopleFile) {
    String name = peopleFile.getFileName().toString();
    String stem = name.endsWith(".json") ? name.substring(0, name.length() - 5) : name;
    return new PeopleJournal(peopleFile.resolveSibling(stem + ".journal"));
  }

  boolean hasBegun() {
    return Files.exists(path);
  }

  /** Appends a line for each change, and has them on disk when it returns. */
  void append(String by, List<PeopleChange> changes) throws IOException {
    if (changes.isEmpty()) {
      return;
    }
    Tail tail = tail();
    Head head = tail.next();
    String at = clock.instant().truncatedTo(ChronoUnit.MILLIS).toString();
    ByteArrayOutputStream text = new ByteArrayOutputStream();
    for (PeopleChange change : changes) {
      long number = head.number() + 1;
      byte[] line =
          JSON.writeValueAsBytes(
              new JournalLine(
                  number,
                  at,
                  by,
                  change.what(),
                  change.personId(),
                  change.from(),
                  change.to(),
                  head.hash()));
      text.writeBytes(line);
      text.write('\n');
      head = new Head(number, hash(line));
    }
    SecretFile.append(path, tail.end(), text.toByteArray());
    SecretFile.replace(
        headPath, (head.number() + " " + head.hash() + "\n").getBytes(StandardCharsets.US_ASCII));
  }

  JournalReading read() throws IOException {
    byte[] all = hasBegun() ? Files.readAllBytes(path) : new byte[0];
    List<byte[]> lines = new ArrayList<>();
    int begin = 0;
    for (int i = 0; i < all.length; i++) {
      if (all[i] == '\n') {
        lines.add(Arrays.copyOfRange(all, begin, i));
        begin = i + 1;
      }
    }
    return JournalReading.of(lines, Arrays.copyOfRange(all, begin, all.length), head());
  }

  static Optional<JournalLine> parse(byte[] line) {
    try {
      return Optional.ofNullable(JSON.readValue(line, JournalLine.class))
          .filter(read -> read.previous() != null);
    } catch (IOException noLine) {
      return Optional.empty();
    }
  }

  static String hash(byte[] line) {
    return HexFormat.of().formatHex(Fingerprint.sha256().digest(line));
  }

  /**
   * How the file ends.
   *
   * @param end where the next line goes; behind it is at most what a fall left of a line, which was
   *     never followed by its change
   * @param next what the next line continues
   */
  private record Tail(long end, Head next) {}

  /** Numbers go on behind those that were ever given, so that a line taken out leaves its gap. */
  private Tail tail() throws IOException {
    long written = head().map(Head::number).orElse(0L);
    if (!hasBegun()) {
      return new Tail(0, new Head(written, NOTHING));
    }
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      long end = behindBreak(channel, channel.size());
      if (end == 0) {
        return new Tail(0, new Head(written, NOTHING));
      }
      long begin = behindBreak(channel, end - 1);
      byte[] line = bytes(channel, begin, (int) (end - 1 - begin));
      long number = parse(line).map(JournalLine::number).orElse(0L);
      return new Tail(end, new Head(Math.max(number, written), hash(line)));
    }
  }

  /** The place behind the last line break before another place; 0 where there is none. */
  private static long behindBreak(FileChannel channel, long before) throws IOException {
    long to = before;
    while (to > 0) {
      int size = (int) Math.min(CHUNK, to);
      byte[] chunk = bytes(channel, to - size, size);
      for (int i = size - 1; i >= 0; i--) {
        if (chunk[i] == '\n') {
          return to - size + i + 1;
        }
      }
      to -= size;
    }
    return 0;
  }

  private static byte[] bytes(FileChannel channel, long from, int size) throws IOException {
    ByteBuffer buffer = ByteBuffer.allocate(size);
    while (buffer.hasRemaining() && channel.read(buffer, from + buffer.position()) >= 0) {
      // a read may give less than was asked for
    }
    return buffer.array();
  }

  private Optional<Head> head() throws IOException {
    if (!Files.exists(headPath)) {
      return Optional.empty();
    }
    String[] parts =
        new String(Files.readAllBytes(headPath), StandardCharsets.ISO_8859_1)
            .strip()
            .split(" ", -1);
    boolean isHead = parts.length == 2 && parts[0].matches("\\d{1,9}") && parts[1].length() == 64;
    return isHead ? Optional.of(new Head(Long.parseLong(parts[0]), parts[1])) : Optional.empty();
  }
}
