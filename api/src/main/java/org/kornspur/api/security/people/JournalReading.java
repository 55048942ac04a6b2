package org.kornspur.api.security.people;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A journal as it was read, and whether its chain holds.
 *
 * @param lines those that can be read, oldest first
 * @param broken where it does not hold; empty where it does
 * @param head SHA-256 of the last line; whoever notes it elsewhere can tell later whether all up to
 *     it was written again
 */
public record JournalReading(List<JournalLine> lines, Optional<Break> broken, String head) {

  /** The first line that is not as it was written, or not where it was, and how that shows. */
  public record Break(long line, String reason) {}

  /**
   * The lines that can be read, the newest first.
   *
   * @param personId of this person alone; empty for all
   */
  public Stream<JournalLine> newestFirst(Optional<String> personId) {
    List<JournalLine> newestFirst = new ArrayList<>(lines);
    Collections.reverse(newestFirst);
    return newestFirst.stream().filter(line -> personId.map(line.personId()::equals).orElse(true));
  }

  /** Where a journal ended when it was last written. */
  record Head(long number, String hash) {}

  /**
   * Reads and checks.
   *
   * @param lines without their line breaks
   * @param rest what follows the last line break
   * @param head empty where none was kept
   */
  static JournalReading of(List<byte[]> lines, byte[] rest, Optional<Head> head) {
    List<JournalLine> read = new ArrayList<>();
    lines.forEach(line -> PeopleJournal.parse(line).ifPresent(read::add));
    String last =
        lines.isEmpty() ? PeopleJournal.NOTHING : PeopleJournal.hash(lines.get(lines.size() - 1));
    return new JournalReading(List.copyOf(read), new Check(lines, rest, head).firstBreak(), last);
  }

  private record Check(List<byte[]> lines, byte[] rest, Optional<Head> head) {

    Optional<Break> firstBreak() {
      for (int i = 0; i < lines.size(); i++) {
        Optional<Break> broken = at(i);
        if (broken.isPresent()) {
          return broken;
        }
      }
      if (rest.length > 0) {
        return broken(lines.size() + 1L, "is not whole: it ends without a line break");
      }
      return atHead();
    }

    private Optional<Break> at(int i) {
      long expected = i + 1L;
      Optional<JournalLine> line = PeopleJournal.parse(lines.get(i));
      if (line.isEmpty()) {
        return broken(expected, "cannot be read");
      }
      if (line.get().number() != expected) {
        return broken(
            expected,
            "has the number " + line.get().number() + ": lines were taken out, put in or moved");
      }
      if (line.get().previous().equals(hashBefore(i))) {
        return Optional.empty();
      }
      // what follows a line vouches for it: if it does, it was the line before that was altered
      return broken(i > 0 && isVouchedFor(i) ? i : expected, "was altered");
    }

    private String hashBefore(int i) {
      return i == 0 ? PeopleJournal.NOTHING : PeopleJournal.hash(lines.get(i - 1));
    }

    private boolean isVouchedFor(int i) {
      String hash = PeopleJournal.hash(lines.get(i));
      return i + 1 < lines.size()
          ? PeopleJournal.parse(lines.get(i + 1))
              .filter(next -> next.previous().equals(hash))
              .isPresent()
          : head.filter(kept -> kept.hash().equals(hash)).isPresent();
    }

    private Optional<Break> atHead() {
      if (head.isEmpty()) {
        return lines.isEmpty()
            ? Optional.empty()
            : broken(lines.size(), "has nothing to hold it against: the file of the head is gone");
      }
      Head kept = head.get();
      if (kept.number() > lines.size()) {
        return broken(lines.size() + 1L, "is missing: " + kept.number() + " lines were written");
      }
      boolean holds =
          kept.number() == 0
              || PeopleJournal.hash(lines.get((int) kept.number() - 1)).equals(kept.hash());
      return holds ? Optional.empty() : broken(kept.number(), "was altered");
    }

    private static Optional<Break> broken(long line, String reason) {
      return Optional.of(new Break(line, "Line " + line + " " + reason + "."));
    }
  }
}
