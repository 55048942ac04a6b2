package org.kornspur.api.query.advice;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.PredictionAgainstTruth;
import org.kornspur.processors.statistics.Interval;

/**
 * The forecasts of crops beside what was found of their harvests, summed up of each hybrid and of
 * all while crops come, change and go. What it holds is a function of the latest that was put of
 * each crop. Safe for several threads.
 */
final class CalibrationIndex {
  /** Rows, and mixed lots, that one answer shows; all are counted. */
  static final int MOST_SHOWN = 500;

  private final Map<Subject, CropCalibration> held = new HashMap<>();
  private final Map<Subject, Set<Subject>> cropsRestingOn = new HashMap<>();

  /** By hybrid; the sums of all under none. */
  private final Map<Optional<String>, Sums> sums = new HashMap<>();

  /**
   * What an answer shows.
   *
   * @param rows the first, by crop and lot
   * @param results number of all rows
   * @param inside rows, of all, whose observed share lies in the forecast interval
   * @param meanDifference of all rows, observed less expected; empty where there are none
   * @param mixedLots the first lots with results that hold seed of several crops
   * @param crops that were looked at
   * @param complete false where there is more to be found, or a crop makes no forecast
   */
  record Shown(
      List<PredictionAgainstTruth.Row> rows,
      int results,
      int inside,
      Optional<Double> meanDifference,
      List<Subject> mixedLots,
      int crops,
      boolean complete) {
    private static final Shown NOTHING =
        new Shown(List.of(), 0, 0, Optional.empty(), List.of(), 0, true);

    /** The same, and not all that there is. */
    Shown incomplete() {
      return new Shown(rows, results, inside, meanDifference, mixedLots, crops, false);
    }

    /** Interval of the part of results that lie inside; empty where there are none. */
    Optional<Interval> coverage() {
      return results == 0
          ? Optional.empty()
          : Optional.of(PredictionAgainstTruth.coverage(inside, results));
    }
  }

  /** Takes the place of what was put of the same crop. */
  synchronized void put(CropCalibration crop) {
    remove(crop.crop());
    held.put(crop.crop(), crop);
    crop.restsOn()
        .forEach(
            subject ->
                cropsRestingOn.computeIfAbsent(subject, one -> new HashSet<>()).add(crop.crop()));
    count(crop, 1);
  }

  synchronized void remove(Subject cropId) {
    CropCalibration crop = held.remove(cropId);
    if (crop == null) {
      return;
    }
    for (Subject subject : crop.restsOn()) {
      Set<Subject> crops = cropsRestingOn.get(subject);
      crops.remove(cropId);
      if (crops.isEmpty()) {
        cropsRestingOn.remove(subject);
      }
    }
    count(crop, -1);
  }

  /** Each crop that is held, with the hybrid that it was put under. */
  synchronized Map<Subject, String> crops() {
    Map<Subject, String> crops = new HashMap<>();
    held.forEach((crop, calibration) -> crops.put(crop, calibration.hybridId()));
    return crops;
  }

  /** The crops that a change of a subject may bear on. */
  synchronized Set<Subject> restingOn(Subject changed) {
    return Set.copyOf(cropsRestingOn.getOrDefault(changed, Set.of()));
  }

  /**
   * What is held.
   *
   * @param hybridId of this hybrid alone; empty for all
   */
  synchronized Shown of(Optional<String> hybridId) {
    Sums found = sums.get(hybridId);
    return found == null ? Shown.NOTHING : found.shown();
  }

  /** What is held of the crops that are wanted. */
  synchronized Shown of(Predicate<Subject> wanted) {
    Sums found = new Sums();
    held.values().stream()
        .filter(crop -> wanted.test(crop.crop()))
        .forEach(crop -> found.count(crop, 1));
    return found.shown();
  }

  private void count(CropCalibration crop, int times) {
    for (Optional<String> group : List.of(Optional.<String>empty(), Optional.of(crop.hybridId()))) {
      Sums counted = sums.computeIfAbsent(group, one -> new Sums());
      counted.count(crop, times);
      if (counted.crops == 0) {
        sums.remove(group);
      }
    }
  }

  /** Differences are summed in whole units, so that the order of crops does not matter. */
  private static final class Sums {
    private static final double UNITS = 1e12;

    private final SortedMap<Subject, CropCalibration> withRows = new TreeMap<>();
    private final SortedMap<Subject, Integer> mixedLots = new TreeMap<>();
    private int crops;
    private int incomplete;
    private int rows;
    private int inside;
    private long differences;

    void count(CropCalibration crop, int times) {
      crops += times;
      incomplete += crop.complete() ? 0 : times;
      if (times < 0) {
        withRows.remove(crop.crop());
      } else if (!crop.rows().isEmpty()) {
        withRows.put(crop.crop(), crop);
      }
      for (PredictionAgainstTruth.Row row : crop.rows()) {
        rows += times;
        inside += row.inside() ? times : 0;
        differences += times * Math.round((row.observed() - row.predictedMean()) * UNITS);
      }
      for (Subject lot : crop.mixedLots()) {
        mixedLots.merge(
            lot, times, (one, more) -> one + more == 0 ? null : Integer.valueOf(one + more));
      }
    }

    Shown shown() {
      return new Shown(
          withRows.values().stream()
              .flatMap(crop -> crop.rows().stream())
              .limit(MOST_SHOWN)
              .toList(),
          rows,
          inside,
          rows == 0 ? Optional.empty() : Optional.of(differences / UNITS / rows),
          mixedLots.keySet().stream().limit(MOST_SHOWN).toList(),
          crops,
          incomplete == 0);
    }
  }
}
