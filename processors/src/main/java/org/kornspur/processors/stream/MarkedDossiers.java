package org.kornspur.processors.stream;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;

/**
 * The dossiers of a task into which something was filed since they were judged, in the order in
 * which they were marked. They are kept in a store, so that none is forgotten when the task moves
 * or the process dies; and in memory, with those of whom each has heard nothing yet.
 */
final class MarkedDossiers {
  private static final String TO_BE_JUDGED = "to be judged";

  private final KeyValueStore<String, String> kept;
  private final Map<String, Mark> marks = new LinkedHashMap<>();

  /** The earlier release kept a note of the same name for some, of which all are judged again. */
  MarkedDossiers(KeyValueStore<String, String> kept) {
    this.kept = kept;
    try (KeyValueIterator<String, String> all = kept.all()) {
      all.forEachRemaining(entry -> marks.put(entry.key, new Mark(0, new HashSet<>())));
    }
  }

  /**
   * @param sinceMs when it was marked, milliseconds of the epoch
   * @param unheard parents and hybrids that have told it nothing yet
   */
  private record Mark(long sinceMs, Set<String> unheard) {}

  boolean isEmpty() {
    return marks.isEmpty();
  }

  /**
   * The one that was marked first.
   *
   * @throws java.util.NoSuchElementException if none is marked
   */
  Subject first() {
    return Subject.parse(marks.keySet().iterator().next());
  }

  /** Marks a dossier, which keeps its place if it is marked already. */
  void mark(Subject subject, Set<String> unheard, long nowMs) {
    String key = subject.toString();
    Mark earlier = marks.get(key);
    if (earlier == null) {
      kept.put(key, TO_BE_JUDGED);
      marks.put(key, new Mark(nowMs, new HashSet<>(unheard)));
    } else {
      earlier.unheard().addAll(unheard);
    }
  }

  void unmark(Subject subject) {
    if (marks.remove(subject.toString()) != null) {
      kept.delete(subject.toString());
    }
  }

  /** Notes that a dossier was told something by a sender. */
  void heard(Subject subject, String sender) {
    Mark mark = marks.get(subject.toString());
    if (mark != null) {
      mark.unheard().remove(sender);
    }
  }

  /** Whether a dossier is marked, and has heard nothing yet of one it waits for. */
  boolean waits(Subject subject) {
    Mark mark = marks.get(subject.toString());
    return mark != null && !mark.unheard().isEmpty();
  }

  /** The first of those that wait for nobody, or that were marked before that time. */
  List<Subject> due(long markedBeforeMs, int most) {
    return marks.entrySet().stream()
        .filter(
            entry ->
                entry.getValue().unheard().isEmpty() || entry.getValue().sinceMs() < markedBeforeMs)
        .limit(most)
        .map(entry -> Subject.parse(entry.getKey()))
        .toList();
  }
}
