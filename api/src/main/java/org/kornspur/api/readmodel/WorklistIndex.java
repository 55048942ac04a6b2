package org.kornspur.api.readmodel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import org.kornspur.ingest.contract.Subject;

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
          .thenComparing(cause -> cause.origin().subject().kind().word())
          .thenComparing(cause -> cause.origin().subject().id());

  private final Map<Subject, ImpactTotals> reaches = new HashMap<>();
  private final int most;
  private final NavigableSet<EvidenceDeadline> owed = new TreeSet<>(EvidenceDeadline.SOONEST_FIRST);
  private final SortedSet<StandingRow> suspended = new TreeSet<>(StandingIndex.WORST_FIRST);
  private final SortedSet<StandingRow> proposed = new TreeSet<>(StandingIndex.WORST_FIRST);
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
    held.origins()
        .forEach(origin -> reaches.computeIfAbsent(origin, one -> new ImpactTotals()).add(held));
    for (EvidenceDeadline one : held.owed()) {
      keep(one);
      pieces += one.pieces();
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

  /** Takes out what was added before. */
  void remove(IndexedStanding held) {
    for (Subject origin : held.origins()) {
      ImpactTotals reach = reaches.get(origin);
      reach.remove(held);
      if (reach.isNothing()) {
        reaches.remove(origin);
      }
    }
    for (EvidenceDeadline one : held.owed()) {
      owed.remove(one);
      pieces -= one.pieces();
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
    for (Map.Entry<Subject, ImpactTotals> reach : reaches.entrySet()) {
      Optional<IndexedStanding> origin = origins.apply(reach.getKey());
      if (origin.isPresent()) {
        causes++;
        worst.add(cause(origin.get(), reach.getValue()));
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
        releases(proposed, held, most));
  }

  private static Worklist.Cause cause(IndexedStanding origin, ImpactTotals reach) {
    return new Worklist.Cause(
        origin.row(), origin.packed(), reach.lots(), reach.leftKg(), reach.customersKg());
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

  private static ResultPage<Worklist.Release> releases(
      SortedSet<StandingRow> rows, Function<Subject, IndexedStanding> held, int most) {
    return new ResultPage<>(1, most, rows.size(), rows.stream().limit(most).toList())
        .map(row -> new Worklist.Release(row, held.apply(row.subject()).packed()));
  }

  /**
   * How far something that is wrong with a crop or lot reaches. Masses are summed in whole
   * milligrams, so that the sum does not depend on the order in which lots came and went.
   */
  private static final class ImpactTotals {
    private static final double MG_IN_KG = 1e6;

    private int rows;
    private int lots;
    private long leftMg;
    private long customersMg;

    void add(IndexedStanding held) {
      count(held, 1);
    }

    void remove(IndexedStanding held) {
      count(held, -1);
    }

    private void count(IndexedStanding held, int times) {
      StandingRow row = held.row();
      rows += times;
      if (row.subject().kind() == Subject.Kind.LOT) {
        lots += times;
        leftMg += times * mg(Math.max(0, row.heldKg() - row.givenOutKg()));
        customersMg += times * mg(held.customersKg());
      }
    }

    boolean isNothing() {
      return rows == 0;
    }

    /** Lots that it reaches; crops are not counted. */
    int lots() {
      return lots;
    }

    double leftKg() {
      return leftMg / MG_IN_KG;
    }

    double customersKg() {
      return customersMg / MG_IN_KG;
    }

    private static long mg(double kg) {
      return Math.round(kg * MG_IN_KG);
    }
  }
}
