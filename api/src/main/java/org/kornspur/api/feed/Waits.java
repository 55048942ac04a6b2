package org.kornspur.api.feed;

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
final class Waits {
  private static final Comparator<Waiting.Cause> WORST_FIRST =
      Comparator.comparingDouble(Waiting.Cause::customersKg)
          .thenComparingDouble(Waiting.Cause::leftKg)
          .thenComparing(cause -> cause.origin().changedAt())
          .reversed()
          .thenComparing(cause -> cause.origin().subject().kind().word())
          .thenComparing(cause -> cause.origin().subject().id());

  private final Map<Subject, Reach> reaches = new HashMap<>();
  private final int most;
  private final NavigableSet<OwedUntil> owed = new TreeSet<>(OwedUntil.SOONEST_FIRST);
  private final SortedSet<StandingRow> suspended = new TreeSet<>(StandingIndex.WORST_FIRST);
  private final SortedSet<StandingRow> proposed = new TreeSet<>(StandingIndex.WORST_FIRST);
  private long pieces;

  /** To be kept in step: what is added may be removed. */
  Waits() {
    this(Integer.MAX_VALUE);
  }

  private Waits(int most) {
    this.most = most;
  }

  /** For one question: nothing is removed, and no more of each kind will be shown. */
  static Waits forFirst(int most) {
    return new Waits(most);
  }

  void add(Held held) {
    held.origins().forEach(origin -> reaches.computeIfAbsent(origin, one -> new Reach()).add(held));
    for (OwedUntil one : held.owed()) {
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

  private void keep(OwedUntil one) {
    if (owed.size() < most) {
      owed.add(one);
    } else if (OwedUntil.SOONEST_FIRST.compare(one, owed.last()) < 0) {
      owed.pollLast();
      owed.add(one);
    }
  }

  /** Takes out what was added before. */
  void remove(Held held) {
    for (Subject origin : held.origins()) {
      Reach reach = reaches.get(origin);
      reach.remove(held);
      if (reach.isNothing()) {
        reaches.remove(origin);
      }
    }
    for (OwedUntil one : held.owed()) {
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
  Waiting first(Function<Subject, Optional<Held>> origins, Function<Subject, Held> held, int most) {
    NavigableSet<Waiting.Cause> worst = new TreeSet<>(WORST_FIRST);
    int causes = 0;
    for (Map.Entry<Subject, Reach> reach : reaches.entrySet()) {
      Optional<Held> origin = origins.apply(reach.getKey());
      if (origin.isPresent()) {
        causes++;
        worst.add(cause(origin.get(), reach.getValue()));
        if (worst.size() > most) {
          worst.pollLast();
        }
      }
    }
    return new Waiting(
        List.copyOf(worst),
        causes,
        owed(held, most),
        pieces,
        releases(suspended, held, most),
        releases(proposed, held, most));
  }

  private static Waiting.Cause cause(Held origin, Reach reach) {
    return new Waiting.Cause(
        origin.row(), origin.packed(), reach.lots(), reach.leftKg(), reach.customersKg());
  }

  private List<Waiting.Owed> owed(Function<Subject, Held> held, int most) {
    List<Waiting.Owed> first = new ArrayList<>();
    int found = 0;
    for (OwedUntil one : owed) {
      if (found >= most) {
        break;
      }
      first.add(new Waiting.Owed(one, held.apply(one.subject()).packed()));
      found += one.pieces();
    }
    return List.copyOf(first);
  }

  private static Slice<Waiting.Release> releases(
      SortedSet<StandingRow> rows, Function<Subject, Held> held, int most) {
    return new Slice<>(1, most, rows.size(), rows.stream().limit(most).toList())
        .map(row -> new Waiting.Release(row, held.apply(row.subject()).packed()));
  }
}
