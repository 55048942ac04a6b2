package org.kornspur.api.readmodel;

import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;

/**
 * Crops and lots counted by season, of each hybrid and of all, kept in step while standings come
 * and go. What it holds is a function of those that are in it. Of what nothing is known of the
 * material there is no season. Not safe for several threads.
 */
final class SeasonTotals {
  private final Map<Group, SortedMap<Integer, Sums>> groups = new HashMap<>();

  /** Empty for all hybrids. */
  private record Group(Subject.Kind kind, Optional<String> hybridId) {}

  void add(StandingIndexRow row) {
    count(row, 1);
  }

  /** Takes out what was added before. */
  void remove(StandingIndexRow row) {
    count(row, -1);
  }

  /**
   * The seasons of a kind of subject, the latest first.
   *
   * @param hybridId of this hybrid alone; empty for all
   */
  List<SeasonTotal> of(Subject.Kind kind, Optional<String> hybridId) {
    SortedMap<Integer, Sums> seasons = groups.get(new Group(kind, hybridId));
    return seasons == null
        ? List.of()
        : seasons.entrySet().stream().map(one -> one.getValue().total(one.getKey())).toList();
  }

  /** See {@link SeasonTotal#byHolder}. */
  static SortedMap<String, SeasonTotal> byHolder(Subject.Kind kind, List<StandingIndexRow> rows) {
    SortedMap<String, SeasonTotals> counted = new TreeMap<>();
    for (StandingIndexRow row : rows) {
      row.holder()
          .ifPresent(holder -> counted.computeIfAbsent(holder, one -> new SeasonTotals()).add(row));
    }
    SortedMap<String, SeasonTotal> seasons = new TreeMap<>();
    counted.forEach(
        (holder, totals) -> seasons.put(holder, totals.of(kind, Optional.empty()).get(0)));
    return seasons;
  }

  private void count(StandingIndexRow row, int times) {
    row.material()
        .ifPresent(
            material -> {
              count(new Group(row.subject().kind(), Optional.empty()), material, row, times);
              count(
                  new Group(row.subject().kind(), Optional.of(material.getHybridId())),
                  material,
                  row,
                  times);
            });
  }

  private void count(Group group, SeedMaterial material, StandingIndexRow row, int times) {
    SortedMap<Integer, Sums> seasons =
        groups.computeIfAbsent(group, one -> new TreeMap<>(Comparator.reverseOrder()));
    Sums sums = seasons.computeIfAbsent(material.getCropYear(), one -> new Sums());
    sums.count(row, times);
    if (sums.all == 0) {
      seasons.remove(material.getCropYear());
    }
    if (seasons.isEmpty()) {
      groups.remove(group);
    }
  }

  private static final class Sums {
    private int all;
    private int fit;
    private int notFit;
    private long leftMg;
    private long givenOutMg;
    private final SortedMap<String, Integer> causes = new TreeMap<>();

    void count(StandingIndexRow row, int times) {
      all += times;
      fit += row.state() == StandingState.FIT ? times : 0;
      notFit += row.state() == StandingState.NOT_FIT ? times : 0;
      leftMg += times * Milligrams.ofKg(Math.max(0, row.leftKg()));
      givenOutMg += times * Milligrams.ofKg(row.givenOutKg());
      if (row.state() == StandingState.NOT_FIT) {
        row.notMet().forEach(gate -> ValueCounts.count(causes, gate, times));
      }
    }

    SeasonTotal total(int year) {
      return new SeasonTotal(
          year,
          fit,
          all - fit - notFit,
          notFit,
          Milligrams.toKg(leftMg),
          Milligrams.toKg(givenOutMg),
          Collections.unmodifiableSortedMap(new TreeMap<>(causes)));
    }
  }
}
