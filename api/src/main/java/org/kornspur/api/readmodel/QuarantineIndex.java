package org.kornspur.api.readmodel;

import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.Problem;

/** Every refused input, in memory, newest first. The originals are kept packed. */
public final class QuarantineIndex {
  private static final Comparator<QuarantineRow> NEWEST_FIRST =
      Comparator.comparing(QuarantineRow::receivedAt)
          .reversed()
          .thenComparing(QuarantineRow::entryId);

  private final Map<String, Held> held = new HashMap<>();
  private int waiting;
  private final SortedSet<QuarantineRow> newestFirst = new TreeSet<>(NEWEST_FIRST);
  private final Map<String, Set<String>> heldByWord = new HashMap<>();

  /** An entry; {@code words} only of one that waits. */
  private record Held(QuarantineRow row, CompressedRecord packed, Set<String> words) {}

  /**
   * Takes an entry, or what was decided of it. The same input refused again neither undoes the
   * decision nor replaces what came first, in whatever order they are read; who sent it is added.
   */
  public synchronized void put(QuarantineEntry entry, byte[] bytes) {
    String entryId = entry.getEntryId();
    Held before = held.get(entryId);
    Set<String> senders = new HashSet<>(senders(entryId));
    Optional.ofNullable(entry.getSubmittedBy()).ifPresent(senders::add);
    boolean stays = before != null && standsAgainst(before.row(), entry);
    QuarantineRow row = stays ? before.row().sentBy(senders) : row(entry, Set.copyOf(senders));
    remove(entryId);
    Set<String> words =
        isDecision(row.state())
            ? Set.of()
            : stays ? before.words() : IdCandidates.in(entry.getOriginalValue());
    held.put(entryId, new Held(row, stays ? before.packed() : CompressedRecord.of(bytes), words));
    words.forEach(word -> heldByWord.computeIfAbsent(word, one -> new HashSet<>()).add(entryId));
    newestFirst.add(row);
    waiting += isDecision(row.state()) ? 0 : 1;
  }

  private static boolean standsAgainst(QuarantineRow before, QuarantineEntry entry) {
    if (isDecision(entry.getState())) {
      return false;
    }
    return isDecision(before.state()) || !entry.getReceivedAt().isBefore(before.receivedAt());
  }

  /** Forgets an entry that was taken out of the topic. */
  public synchronized void remove(String entryId) {
    Held before = held.remove(entryId);
    if (before != null) {
      newestFirst.remove(before.row());
      before.words().forEach(word -> forget(word, entryId));
      waiting -= isDecision(before.row().state()) ? 0 : 1;
    }
  }

  private void forget(String word, String entryId) {
    Set<String> entries = heldByWord.get(word);
    entries.remove(entryId);
    if (entries.isEmpty()) {
      heldByWord.remove(word);
    }
  }

  /** Forgets all entries. */
  synchronized void clear() {
    held.clear();
    newestFirst.clear();
    heldByWord.clear();
    waiting = 0;
  }

  /** How many entries nobody has decided on. */
  public synchronized int waiting() {
    return waiting;
  }

  /** Entries that nobody has decided on and in which an id stands as a word, newest first. */
  public synchronized List<QuarantineRow> waitingThatName(String id) {
    return heldByWord.getOrDefault(id, Set.of()).stream()
        .map(entryId -> held.get(entryId).row())
        .sorted(NEWEST_FIRST)
        .toList();
  }

  /** Who sent an entry over the interface; nobody where there is none. */
  public synchronized Set<String> senders(String entryId) {
    return Optional.ofNullable(held.get(entryId))
        .map(found -> found.row().senders())
        .orElse(Set.of());
  }

  /** The record of an entry as it came. */
  public synchronized Optional<byte[]> bytes(String entryId) {
    return Optional.ofNullable(held.get(entryId)).map(found -> found.packed().unpacked());
  }

  /**
   * One page of the entries in any of these states.
   *
   * @param states empty for all
   * @param seen which entries there are for who asks; the others are not counted either
   * @param page from 1
   */
  public synchronized ResultPage<QuarantineRow> find(
      Set<QuarantineState> states, Predicate<QuarantineRow> seen, int page, int size) {
    return ResultPage.of(
        newestFirst.stream()
            .filter(row -> states.isEmpty() || states.contains(row.state()))
            .filter(seen),
        page,
        size);
  }

  private static boolean isDecision(QuarantineState state) {
    return switch (state) {
      case HELD -> false;
      case REPLAYED, DISCARDED -> true;
    };
  }

  private static QuarantineRow row(QuarantineEntry entry, Set<String> senders) {
    return new QuarantineRow(
        entry.getEntryId(),
        entry.getOrigin(),
        entry.getPlace(),
        entry.getReceivedAt(),
        entry.getProblems().stream().map(Problem::of).toList(),
        bytesOf(entry),
        entry.getState(),
        Optional.ofNullable(entry.getReplayedAs()),
        senders);
  }

  private static int bytesOf(QuarantineEntry entry) {
    return entry.getWholeBytes() == null
        ? entry.getOriginalValue().remaining()
        : Math.toIntExact(Math.min(Integer.MAX_VALUE, entry.getWholeBytes()));
  }
}
