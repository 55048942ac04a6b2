package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;

/**
 * The dossiers of a task into which something was filed since they were judged, in the order in
 * which they were marked. They are kept in a store, so that none is forgotten when the task moves
 * or the process dies; and in memory, with those of whom each has heard nothing yet.
 *
 * <p>The store holds them in batches: one is written as it fills, and deleted when all in it are
 * judged, so that a load of many facts writes few records. After a crash some are judged again,
 * which changes nothing.
 */
final class MarkedDossiers {
  static final int MOST_IN_A_BATCH = 50;
  private static final String BATCH = "batch-";

  private final KeyValueStore<String, String> kept;
  private final Map<String, Mark> ready = new LinkedHashMap<>();
  private final Map<String, Mark> waiting = new LinkedHashMap<>();
  private final Map<String, Batch> batches = new HashMap<>();
  private Batch open;
  private long lastNumber;

  /** The earlier release kept a note for each dossier, under its name. */
  MarkedDossiers(KeyValueStore<String, String> kept) {
    this.kept = kept;
    List<String> emptied = new ArrayList<>();
    try (KeyValueIterator<String, String> all = kept.all()) {
      all.forEachRemaining(
          entry -> {
            if (take(entry.key, entry.value).isEmpty()) {
              emptied.add(entry.key);
            }
          });
    }
    emptied.forEach(kept::delete);
    open = next();
  }

  /**
   * @param sinceMs when it was marked, milliseconds of the epoch
   * @param readyMs since when it waits for nobody; when it was marked where it still waits
   * @param unheard parents and hybrids that have told it nothing yet
   */
  private record Mark(long sinceMs, long readyMs, Set<String> unheard) {
    Mark readyAt(long nowMs) {
      return new Mark(sinceMs, nowMs, unheard);
    }
  }

  /**
   * @param written all that the store holds under the key
   * @param left those of them that are still to be judged
   */
  private record Batch(String key, Set<String> written, Set<String> left) {}

  /** The dossiers of a batch that no batch before it holds. */
  private Set<String> take(String key, String value) {
    boolean isBatch = key.startsWith(BATCH);
    Batch batch =
        new Batch(
            key, new LinkedHashSet<>(isBatch ? Keys.parts(value) : List.of(key)), new HashSet<>());
    for (String subject : batch.written()) {
      if (ready.putIfAbsent(subject, new Mark(0, 0, new HashSet<>())) == null) {
        batches.put(subject, batch);
        batch.left().add(subject);
      }
    }
    if (isBatch) {
      lastNumber = Math.max(lastNumber, Long.parseLong(key.substring(BATCH.length())));
    }
    return batch.left();
  }

  private Batch next() {
    lastNumber++;
    return new Batch(
        BATCH + String.format("%019d", lastNumber), new LinkedHashSet<>(), new HashSet<>());
  }

  boolean isEmpty() {
    return ready.isEmpty() && waiting.isEmpty();
  }

  int size() {
    return ready.size() + waiting.size();
  }

  /** How many of them wait for nobody. */
  int ready() {
    return ready.size();
  }

  /** Since when the first of them waits for nobody; now where all wait. */
  long oldestReadyMs(long nowMs) {
    return ready.values().stream().findFirst().map(Mark::readyMs).orElse(nowMs);
  }

  /** When the one was marked that waits longest; now where none is marked. */
  long oldestMs(long nowMs) {
    return Stream.of(ready, waiting)
        .flatMap(marks -> marks.values().stream().limit(1))
        .mapToLong(Mark::sinceMs)
        .min()
        .orElse(nowMs);
  }

  /**
   * One that is marked, of those that wait for nobody where there are such.
   *
   * @throws java.util.NoSuchElementException if none is marked
   */
  Subject first() {
    return Subject.parse((ready.isEmpty() ? waiting : ready).keySet().iterator().next());
  }

  /** Marks a dossier, which keeps its place if it is marked already. */
  void mark(Subject subject, Set<String> unheard, long nowMs) {
    String key = subject.toString();
    Mark mark = find(key);
    if (mark == null) {
      mark = new Mark(nowMs, nowMs, new HashSet<>(unheard));
      keep(key);
    } else {
      mark.unheard().addAll(unheard);
      if (!unheard.isEmpty()) {
        ready.remove(key);
      }
    }
    (mark.unheard().isEmpty() ? ready : waiting).putIfAbsent(key, mark);
  }

  private void keep(String subject) {
    if (open.written().size() >= MOST_IN_A_BATCH) {
      open = next();
    }
    open.written().add(subject);
    open.left().add(subject);
    batches.put(subject, open);
    kept.put(open.key(), Keys.of(open.written().toArray()));
  }

  void unmark(Subject subject) {
    String key = subject.toString();
    ready.remove(key);
    waiting.remove(key);
    Batch batch = batches.remove(key);
    if (batch != null && batch.left().remove(key) && batch.left().isEmpty()) {
      kept.delete(batch.key());
      if (batch == open) {
        open = next();
      }
    }
  }

  /** Notes that a dossier was told something by a sender. */
  void heard(Subject subject, String sender, long nowMs) {
    Mark mark = waiting.get(subject.toString());
    if (mark != null && mark.unheard().remove(sender) && mark.unheard().isEmpty()) {
      waiting.remove(subject.toString());
      ready.put(subject.toString(), mark.readyAt(nowMs));
    }
  }

  /** Whether a dossier is marked, and has heard nothing yet of one it waits for. */
  boolean waits(Subject subject) {
    return waiting.containsKey(subject.toString());
  }

  /** Whether it is marked and waits for the word of this one, maybe among others. */
  boolean waitsFor(Subject subject, String sender) {
    Mark mark = waiting.get(subject.toString());
    return mark != null && mark.unheard().contains(sender);
  }

  /** The first of those that were marked before that time or wait for nobody. */
  List<Subject> due(long markedBeforeMs, int most) {
    List<Subject> due = new ArrayList<>();
    Stream.concat(
            waiting.entrySet().stream()
                .takeWhile(entry -> entry.getValue().sinceMs() < markedBeforeMs),
            ready.entrySet().stream())
        .limit(most)
        .forEach(entry -> due.add(Subject.parse(entry.getKey())));
    return due;
  }

  private Mark find(String subject) {
    return ready.getOrDefault(subject, waiting.get(subject));
  }
}
