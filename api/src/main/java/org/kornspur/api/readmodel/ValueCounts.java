package org.kornspur.api.readmodel;

import java.util.Comparator;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** How many rows have each value. A value that no row has any more is gone. */
final class ValueCounts {
  private final SortedMap<Integer, Integer> cropYears = new TreeMap<>(Comparator.reverseOrder());
  private final SortedMap<String, Integer> hybridIds = new TreeMap<>();
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
        List.copyOf(holders.keySet()));
  }

  private void count(StandingIndexRow row, int times) {
    row.holder().ifPresent(holder -> count(holders, holder, times));
    row.material()
        .ifPresent(
            material -> {
              count(cropYears, material.getCropYear(), times);
              count(hybridIds, material.getHybridId(), times);
            });
  }

  private static <T> void count(SortedMap<T, Integer> counts, T value, int times) {
    counts.merge(
        value, times, (held, more) -> held + more == 0 ? null : Integer.valueOf(held + more));
  }
}
