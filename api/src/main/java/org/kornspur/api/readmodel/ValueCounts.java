package org.kornspur.api.readmodel;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

/** How many rows have each value. A value that no row has any more is gone. */
final class ValueCounts {
  private final Map<Judged, Integer> judged = new HashMap<>();
  private final SortedMap<Integer, Integer> cropYears = new TreeMap<>(Comparator.reverseOrder());
  private final SortedMap<String, Integer> hybridIds = new TreeMap<>();
  private final SortedMap<String, Integer> seedIds = new TreeMap<>();
  private final SortedMap<String, Integer> holders = new TreeMap<>();

  void add(StandingIndexRow row) {
    count(row, 1);
  }

  void remove(StandingIndexRow row) {
    count(row, -1);
  }

  SeedValues values() {
    return new SeedValues(
        List.copyOf(cropYears.keySet()),
        List.copyOf(hybridIds.keySet()),
        List.copyOf(seedIds.keySet()),
        List.copyOf(holders.keySet()));
  }

  int count(Subject.Kind kind, StandingState state) {
    return judged.getOrDefault(new Judged(kind, state), 0);
  }

  private void count(StandingIndexRow row, int times) {
    count(judged, new Judged(row.subject().kind(), row.state()), times);
    row.holder().ifPresent(holder -> count(holders, holder, times));
    row.material()
        .ifPresent(
            material -> {
              count(cropYears, material.getCropYear(), times);
              count(hybridIds, material.getHybridId(), times);
              count(seedIds, material.getSeedId(), times);
            });
  }

  private record Judged(Subject.Kind kind, StandingState state) {}

  /** Adds to a count; one that comes to nothing is gone. */
  static <T> void count(Map<T, Integer> counts, T value, int times) {
    counts.merge(
        value, times, (held, more) -> held + more == 0 ? null : Integer.valueOf(held + more));
  }
}
