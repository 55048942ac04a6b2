package org.kornspur.api.readmodel;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.ReleaseStep;

/**
 * What waits for somebody among some standings, kept in step while they come and go. What it holds
 * is a function of those that are in it, whatever came before. Not safe for several threads.
 */
final class WorklistIndex {
  private static final Comparator<Worklist.Cause> WORST_FIRST =
      Comparator.comparingDouble(Worklist.Cause::customersKg)
          .thenComparingDouble(Worklist.Cause::leftKg)
          .thenComparing(cause -> cause.origin().changedAt())
          .reversed()
          .thenComparing(Worklist.Cause::key);

  private final Map<CauseKey, ImpactTotals> reaches = new HashMap<>();
  private final int most;
  private final NavigableSet<EvidenceDeadline> owed = new TreeSet<>(EvidenceDeadline.SOONEST_FIRST);
  private final SortedSet<StandingIndexRow> suspended = new TreeSet<>(StandingIndex.WORST_FIRST);
  private final SortedSet<StandingIndexRow> proposed = new TreeSet<>(StandingIndex.WORST_FIRST);
  private final SortedSet<StandingIndexRow> dispatched = new TreeSet<>(StandingIndex.WORST_FIRST);
  private final NavigableMap<LocalDate, Integer> piecesByDay = new TreeMap<>();
  private long pieces;

  /** To be kept in step: what is added may be removed. */
  WorklistIndex() {
    this(Integer.MAX_VALUE);
  }

  private WorklistIndex(int most) {
    this.most = most;
  }

  /** For one question: nothing is removed, and no more of each kind will be shown. */
  static WorklistIndex forFirst(int most) {
    return new WorklistIndex(most);
  }

  void add(IndexedStanding held) {
    held.causes()
        .forEach(
            (cause, origins) ->
                reaches.computeIfAbsent(cause, one -> new ImpactTotals()).count(held, origins, 1));
    if (held.dispatchedUnreleased()) {
      dispatched.add(held.row());
    }
    for (EvidenceDeadline one : held.owed()) {
      keep(one);
      count(one, one.pieces());
    }
    switch (held.row().release()) {
      case SUSPENDED -> suspended.add(held.row());
      case PROPOSED -> proposed.add(held.row());
      case NONE, RELEASED, CONDEMNED, UNKNOWN -> {
        // nobody is to do anything about it
      }
    }
  }

  private void keep(EvidenceDeadline one) {
    if (owed.size() < most) {
      owed.add(one);
    } else if (EvidenceDeadline.SOONEST_FIRST.compare(one, owed.last()) < 0) {
      owed.pollLast();
      owed.add(one);
    }
  }

  private void count(EvidenceDeadline one, int more) {
    pieces += more;
    ValueCounts.count(piecesByDay, one.day(), more);
  }

  /** Takes out what was added before. */
  void remove(IndexedStanding held) {
    held.causes()
        .forEach(
            (cause, origins) -> {
              ImpactTotals reach = reaches.get(cause);
              reach.count(held, origins, -1);
              if (reach.isNothing()) {
                reaches.remove(cause);
              }
            });
    dispatched.remove(held.row());
    for (EvidenceDeadline one : held.owed()) {
      owed.remove(one);
      count(one, -one.pieces());
    }
    suspended.remove(held.row());
    proposed.remove(held.row());
  }

  /**
   * The first of each kind.
   *
   * @param origins what a cause began with; empty where it is not there for who asks
   * @param held what is kept of a subject that was added
   */
  Worklist first(
      Function<Subject, Optional<IndexedStanding>> origins,
      Function<Subject, IndexedStanding> held,
      int most) {
    NavigableSet<Worklist.Cause> worst = new TreeSet<>(WORST_FIRST);
    int causes = 0;
    for (CauseKey key : reaches.keySet()) {
      Optional<Worklist.Cause> cause = cause(key, origins);
      if (cause.isPresent()) {
        causes++;
        worst.add(cause.get());
        if (worst.size() > most) {
          worst.pollLast();
        }
      }
    }
    return new Worklist(
        List.copyOf(worst),
        causes,
        owed(held, most),
        pieces,
        releases(suspended, held, most),
        releases(proposed, held, most),
        releases(dispatched, held, most));
  }

  /**
   * How far one cause reaches; empty where nothing is not fit for it, or nothing of what does not
   * meet a gate for it is there for who asks.
   */
  Optional<Worklist.Cause> cause(
      CauseKey key, Function<Subject, Optional<IndexedStanding>> origins) {
    ImpactTotals reach = reaches.get(key);
    if (reach == null) {
      return Optional.empty();
    }
    List<IndexedStanding> seen =
        reach.origins.keySet().stream().flatMap(one -> origins.apply(one).stream()).toList();
    return seen.stream()
        .findFirst()
        .map(
            first ->
                new Worklist.Cause(
                    key,
                    seen.stream().map(one -> one.row().subject()).toList(),
                    first.row(),
                    first.packed(),
                    reach.lots,
                    reach.released,
                    Milligrams.toKg(reach.leftMg),
                    Milligrams.toKg(reach.customersMg)));
  }

  private List<Worklist.Owed> owed(Function<Subject, IndexedStanding> held, int most) {
    List<Worklist.Owed> first = new ArrayList<>();
    int found = 0;
    for (EvidenceDeadline one : owed) {
      if (found >= most) {
        break;
      }
      first.add(new Worklist.Owed(one, held.apply(one.subject()).packed()));
      found += one.pieces();
    }
    return List.copyOf(first);
  }

  /** What is owed by a day from the first to the last of these, soonest first. */
  List<EvidenceDeadline> owedBetween(LocalDate first, LocalDate last) {
    return owed.stream()
        .dropWhile(one -> one.day().isBefore(first))
        .takeWhile(one -> !one.day().isAfter(last))
        .toList();
  }

  /** How many pieces these are. */
  long piecesOwedBetween(LocalDate first, LocalDate last) {
    return piecesByDay.subMap(first, true, last, true).values().stream()
        .mapToLong(Integer::longValue)
        .sum();
  }

  private static ResultPage<Worklist.Release> releases(
      SortedSet<StandingIndexRow> rows, Function<Subject, IndexedStanding> held, int most) {
    return new ResultPage<>(1, most, rows.size(), rows.stream().limit(most).toList())
        .map(row -> new Worklist.Release(row, held.apply(row.subject()).packed()));
  }

  /** How far a cause reaches. */
  private static final class ImpactTotals {
    private final SortedMap<Subject, Integer> origins = new TreeMap<>();
    private int rows;

    /** Lots that it reaches; crops are not counted. */
    private int lots;

    private int released;
    private long leftMg;
    private long customersMg;

    void count(IndexedStanding held, Set<Subject> of, int times) {
      StandingIndexRow row = held.row();
      rows += times;
      of.forEach(
          origin ->
              origins.merge(
                  origin, times, (before, now) -> before + now == 0 ? null : before + now));
      if (row.subject().kind() == Subject.Kind.LOT) {
        lots += times;
        released += isReleased(row.release()) ? times : 0;
        leftMg += times * Milligrams.ofKg(Math.max(0, row.leftKg()));
        customersMg += times * Milligrams.ofKg(held.customersKg());
      }
    }

    private static boolean isReleased(ReleaseStep step) {
      return switch (step) {
        case RELEASED, PROPOSED, SUSPENDED -> true;
        case NONE, CONDEMNED, UNKNOWN -> false;
      };
    }

    boolean isNothing() {
      return rows == 0;
    }
  }
}
