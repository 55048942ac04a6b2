package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReadWriteLock;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.kornspur.api.text.StandingSummary;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.VerdictState;

/**
 * The standing of every crop and lot, in memory, ordered for lists.
 *
 * <p>A list is found by one pass over the rows. What waits for somebody, and the values that lists
 * can be narrowed by, are kept as standings change, and are a function of the latest standing of
 * each subject. The whole standing is kept packed and read only for what is shown. Safe for one
 * writer and many readers.
 */
public final class StandingIndex {
  private static final Comparator<StandingRow> BY_ID =
      Comparator.comparing((StandingRow row) -> row.subject().id())
          .thenComparing(row -> row.subject().kind());
  static final Comparator<StandingRow> WORST_FIRST =
      Comparator.comparingInt(StandingRow::urgency).thenComparing(BY_ID);

  private final ReadWriteLock lock = new ReentrantReadWriteLock();
  private final Map<Subject, IndexedStanding> held = new HashMap<>();
  private final SortedSet<StandingRow> worstFirst = new TreeSet<>(WORST_FIRST);
  private final SortedSet<StandingRow> byId = new TreeSet<>(BY_ID);
  private WorklistIndex waits = new WorklistIndex();
  private ValueCounts values = new ValueCounts();
  private final Map<String, String> words = new HashMap<>();

  /**
   * Takes a standing.
   *
   * @param bytes the record as it came; given back for {@link #find}
   * @return the row that it took the place of
   */
  public Optional<StandingRow> put(LotStanding standing, byte[] bytes, Instant changedAt) {
    StandingRow row = row(standing, changedAt);
    IndexedStanding now = IndexedStanding.of(standing, row, CompressedRecord.of(bytes));
    return writing(
        () -> {
          Optional<StandingRow> before = takeOut(row.subject());
          held.put(row.subject(), now);
          worstFirst.add(row);
          byId.add(row);
          waits.add(now);
          values.add(row);
          return before;
        });
  }

  /** Forgets a subject whose standing was taken out of the topic. */
  public void remove(Subject subject) {
    writing(() -> takeOut(subject));
  }

  /** Forgets all subjects. */
  void clear() {
    writing(
        () -> {
          held.clear();
          worstFirst.clear();
          byId.clear();
          waits = new WorklistIndex();
          values = new ValueCounts();
          return Optional.empty();
        });
  }

  /** The row of a subject. */
  public Optional<StandingRow> row(Subject subject) {
    return reading(() -> Optional.ofNullable(held.get(subject)).map(IndexedStanding::row));
  }

  /** The record of a subject's standing as it came. */
  public Optional<byte[]> bytes(Subject subject) {
    return reading(() -> Optional.ofNullable(held.get(subject))).map(h -> h.packed().unpacked());
  }

  /**
   * One page of the rows that match and are seen.
   *
   * @param seen which rows there are for who asks; the others are not counted either
   */
  public ResultPage<StandingRow> find(StandingQuery query, Predicate<StandingRow> seen) {
    SortedSet<StandingRow> rows =
        switch (query.order()) {
          case WORST -> worstFirst;
          case ID -> byId;
        };
    return reading(
        () ->
            ResultPage.of(
                rows.stream().filter(query::matches).filter(seen), query.page(), query.size()));
  }

  /**
   * What waits among the rows that match.
   *
   * @param most how many of each kind to show; every one is counted
   */
  public Worklist waiting(StandingQuery query, int most) {
    return reading(
        () ->
            query.leavesOutNothing()
                ? waits.first(origin -> Optional.ofNullable(held.get(origin)), held::get, most)
                : walked(query, row -> true, most));
  }

  /**
   * What waits among the rows that match and are seen.
   *
   * @param seen which rows there are for who asks; the others are neither causes nor counted
   * @param most how many of each kind to show
   */
  public Worklist waiting(StandingQuery query, Predicate<StandingRow> seen, int most) {
    return reading(() -> walked(query, seen, most));
  }

  private Worklist walked(StandingQuery query, Predicate<StandingRow> seen, int most) {
    WorklistIndex found = WorklistIndex.forFirst(most);
    for (IndexedStanding one : held.values()) {
      if (one.isWaiting() && query.matches(one.row()) && seen.test(one.row())) {
        found.add(one);
      }
    }
    return found.first(
        origin -> Optional.ofNullable(held.get(origin)).filter(one -> seen.test(one.row())),
        held::get,
        most);
  }

  /** The values that some crop or lot has. */
  public SeedValues values() {
    return reading(() -> values.values());
  }

  /**
   * The values that some row has that is seen.
   *
   * @param seen which rows there are for who asks
   */
  public SeedValues values(Predicate<StandingRow> seen) {
    ValueCounts counted = new ValueCounts();
    return reading(
        () -> {
          byId.stream().filter(seen).forEach(counted::add);
          return counted.values();
        });
  }

  /** The rows that match, by id. */
  public List<StandingRow> matching(Predicate<StandingRow> wanted) {
    return reading(() -> byId.stream().filter(wanted).toList());
  }

  public int size() {
    return reading(held::size);
  }

  private Optional<StandingRow> takeOut(Subject subject) {
    IndexedStanding before = held.remove(subject);
    if (before == null) {
      return Optional.empty();
    }
    worstFirst.remove(before.row());
    byId.remove(before.row());
    waits.remove(before);
    values.remove(before.row());
    return Optional.of(before.row());
  }

  private <T> T reading(Supplier<T> question) {
    return holding(lock.readLock(), question);
  }

  private <T> T writing(Supplier<T> change) {
    return holding(lock.writeLock(), change);
  }

  private static <T> T holding(Lock access, Supplier<T> work) {
    access.lock();
    try {
      return work.get();
    } finally {
      access.unlock();
    }
  }

  private StandingRow row(LotStanding standing, Instant changedAt) {
    return new StandingRow(
        Subject.parse(standing.getSubject()),
        standing.getState(),
        standing.getRelease() == null ? ReleaseStep.NONE : standing.getRelease().getStep(),
        StandingSummary.of(standing),
        Optional.ofNullable(standing.getMaterial()),
        Optional.ofNullable(standing.getRulebook()).map(this::shared),
        gates(standing, VerdictState.NOT_MET, InheritedFinding.Weight.CONDEMNS),
        gates(standing, VerdictState.OWED, InheritedFinding.Weight.OWED),
        standing.getHeldKg(),
        standing.getGivenOutKg(),
        Optional.ofNullable(standing.getHolder()).map(this::shared),
        changedAt);
  }

  private List<String> gates(
      LotStanding standing, VerdictState state, InheritedFinding.Weight weight) {
    Stream<String> own =
        standing.getVerdicts().stream()
            .filter(verdict -> verdict.getState() == state)
            .map(verdict -> verdict.getGate());
    Stream<String> inherited =
        standing.getInherited().stream()
            .filter(trouble -> StandingRecords.weighs(trouble, weight))
            .map(InheritedTrouble::getGate);
    return Stream.concat(own, inherited).distinct().map(this::shared).toList();
  }

  /** Many rows hold the same few words; only the writer calls this. */
  private String shared(String word) {
    return words.computeIfAbsent(word, Function.identity());
  }
}
