package org.kornspur.api.readmodel;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReadWriteLock;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * The standing of every crop and lot, in memory, ordered for lists.
 *
 * <p>A list is found by one pass over the rows. What waits for somebody, the values that lists can
 * be narrowed by, and the totals of seasons are kept as standings change, and are a function of the
 * latest standing of each subject. The whole standing is kept packed and read only for what is
 * shown. Safe for one writer and many readers.
 */
public final class StandingIndex {
  private static final Comparator<StandingIndexRow> BY_ID =
      Comparator.comparing((StandingIndexRow row) -> row.subject().id())
          .thenComparing(row -> row.subject().kind());
  static final Comparator<StandingIndexRow> WORST_FIRST =
      Comparator.comparingInt(StandingIndexRow::urgency).thenComparing(BY_ID);

  private final ReadWriteLock lock = new ReentrantReadWriteLock();
  private final Map<Subject, IndexedStanding> held = new HashMap<>();
  private final SortedSet<StandingIndexRow> worstFirst = new TreeSet<>(WORST_FIRST);
  private final SortedSet<StandingIndexRow> byId = new TreeSet<>(BY_ID);
  private WorklistIndex waits = new WorklistIndex();
  private ValueCounts values = new ValueCounts();
  private SeasonTotals seasons = new SeasonTotals();
  private final SortedMap<Subject, String> f1Crops = new TreeMap<>();
  private final Map<String, String> words = new HashMap<>();
  private long revision;

  /**
   * Takes a standing.
   *
   * @param bytes the record as it came; given back for {@link #find}
   * @return the row that it took the place of
   */
  public Optional<StandingIndexRow> put(LotStanding standing, byte[] bytes, Instant changedAt) {
    return put(standing, CompressedRecord.of(bytes), changedAt);
  }

  Optional<StandingIndexRow> put(LotStanding standing, CompressedRecord packed, Instant changedAt) {
    StandingIndexRow row = StandingIndexRow.of(standing, changedAt, this::shared);
    IndexedStanding now = IndexedStanding.of(standing, row, packed);
    return writing(
        () -> {
          Optional<StandingIndexRow> before = takeOut(row.subject());
          held.put(row.subject(), now);
          worstFirst.add(row);
          byId.add(row);
          waits.add(now);
          values.add(row);
          seasons.add(row);
          row.hybridOfF1Crop().ifPresent(hybridId -> f1Crops.put(row.subject(), hybridId));
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
          revision++;
          held.clear();
          worstFirst.clear();
          byId.clear();
          waits = new WorklistIndex();
          values = new ValueCounts();
          seasons = new SeasonTotals();
          f1Crops.clear();
          return Optional.empty();
        });
  }

  /**
   * Another number after each change: what was made of all standings holds while it is the same.
   */
  public long revision() {
    return reading(() -> revision);
  }

  /** The row of a subject. */
  public Optional<StandingIndexRow> row(Subject subject) {
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
  public ResultPage<StandingIndexRow> find(StandingQuery query, Predicate<StandingIndexRow> seen) {
    SortedSet<StandingIndexRow> rows =
        query.order() == StandingQuery.Order.WORST ? worstFirst : byId;
    return reading(
        () ->
            ResultPage.of(
                query.order().sorted(rows.stream().filter(query::matches).filter(seen)),
                query.page(),
                query.size()));
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
  public Worklist waiting(StandingQuery query, Predicate<StandingIndexRow> seen, int most) {
    return reading(() -> walked(query, seen, most));
  }

  private Worklist walked(StandingQuery query, Predicate<StandingIndexRow> seen, int most) {
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

  /**
   * How far a cause reaches among the rows that are seen; empty where nothing is not fit for it.
   *
   * @param seen which rows there are for who asks; the others are not counted
   */
  public Optional<Worklist.Cause> cause(CauseKey key, Predicate<StandingIndexRow> seen) {
    WorklistIndex found = WorklistIndex.forFirst(1);
    return reading(
        () -> {
          concerned(key, seen).forEach(found::add);
          return found.cause(
              key,
              origin -> Optional.ofNullable(held.get(origin)).filter(one -> seen.test(one.row())));
        });
  }

  /** The crops and lots that are not fit for a cause, as far as they are seen, by id. */
  public List<StandingIndexRow> reached(CauseKey key, Predicate<StandingIndexRow> seen) {
    return reading(() -> concerned(key, seen).map(IndexedStanding::row).sorted(BY_ID).toList());
  }

  private Stream<IndexedStanding> concerned(CauseKey key, Predicate<StandingIndexRow> seen) {
    return held.values().stream()
        .filter(one -> one.causes().containsKey(key))
        .filter(one -> seen.test(one.row()));
  }

  /** What crops and lots owe by a day from the first to the last of these, soonest first. */
  public List<EvidenceDeadline> owedBetween(LocalDate first, LocalDate last) {
    return reading(() -> waits.owedBetween(first, last));
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
  public SeedValues values(Predicate<StandingIndexRow> seen) {
    ValueCounts counted = new ValueCounts();
    return reading(
        () -> {
          byId.stream().filter(seen).forEach(counted::add);
          return counted.values();
        });
  }

  /** The seasons of a kind of subject, the latest first. */
  public List<SeasonTotal> seasons(Subject.Kind kind, SeasonFilter filter) {
    return filter.isOfHybridAlone()
        ? reading(() -> seasons.of(kind, filter.hybridId()))
        : seasons(kind, filter, row -> true);
  }

  /**
   * The seasons of a kind of subject, of the rows that are seen.
   *
   * @param seen which rows there are for who asks; the others are not counted
   */
  public List<SeasonTotal> seasons(
      Subject.Kind kind, SeasonFilter filter, Predicate<StandingIndexRow> seen) {
    SeasonTotals counted = new SeasonTotals();
    matching(row -> row.subject().kind() == kind && filter.matches(row) && seen.test(row))
        .forEach(counted::add);
    return counted.of(kind, Optional.empty());
  }

  /** The crops that F1 seed is grown in, each with its hybrid. */
  public SortedMap<Subject, String> f1Crops() {
    return reading(() -> new TreeMap<>(f1Crops));
  }

  /** The rows that match, by id. */
  public List<StandingIndexRow> matching(Predicate<StandingIndexRow> wanted) {
    return reading(() -> byId.stream().filter(wanted).toList());
  }

  /** How many crops or lots have a standing. */
  public int count(Subject.Kind kind, StandingState state) {
    return reading(() -> values.count(kind, state));
  }

  /** How many pieces of evidence are owed by a day from the first to the last of these. */
  public long piecesOwedBetween(LocalDate first, LocalDate last) {
    return reading(() -> waits.piecesOwedBetween(first, last));
  }

  /** All that is held. */
  List<IndexedStanding> all() {
    return reading(() -> List.copyOf(held.values()));
  }

  public int size() {
    return reading(held::size);
  }

  private Optional<StandingIndexRow> takeOut(Subject subject) {
    revision++;
    IndexedStanding before = held.remove(subject);
    if (before == null) {
      return Optional.empty();
    }
    worstFirst.remove(before.row());
    byId.remove(before.row());
    waits.remove(before);
    values.remove(before.row());
    seasons.remove(before.row());
    f1Crops.remove(subject);
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

  /** Many rows hold the same few words; only the writer calls this. */
  private String shared(String word) {
    return words.computeIfAbsent(word, Function.identity());
  }
}
