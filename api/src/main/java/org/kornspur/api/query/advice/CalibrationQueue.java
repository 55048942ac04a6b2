package org.kornspur.api.query.advice;

import java.time.Duration;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BiFunction;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.DossierChanges;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.ingest.contract.Subject;

/**
 * Which crops of an index are to be calculated. A change is told of while it is on its way to the
 * stores, so a crop is calculated at once and once more when nothing is on its way any more. For
 * one thread, but for {@link #isSettled}.
 */
final class CalibrationQueue {
  private static final Logger LOG = Logger.getLogger(CalibrationQueue.class);

  private final CalibrationIndex index;
  private SortedMap<Subject, String> crops = new TreeMap<>();
  private final Set<Subject> marked = new LinkedHashSet<>();
  private final Set<Subject> onceMore = new LinkedHashSet<>();
  private volatile boolean settled;

  CalibrationQueue(CalibrationIndex index) {
    this.index = index;
  }

  /** Whether the index holds what calculating all crops now would come to. */
  boolean isSettled() {
    return settled;
  }

  /**
   * Marks what a change may bear on.
   *
   * @param now the crops that F1 seed is grown in, with their hybrids
   */
  void mark(SortedMap<Subject, String> now, DossierChanges.Changed changed) {
    crops = now;
    Map<Subject, String> held = index.crops();
    held.keySet().stream().filter(crop -> !crops.containsKey(crop)).forEach(index::remove);
    marked.retainAll(crops.keySet());
    onceMore.retainAll(crops.keySet());
    crops.forEach(
        (crop, hybridId) -> {
          if (changed.all() || !hybridId.equals(held.get(crop))) {
            marked.add(crop);
          }
        });
    changed.subjects().forEach(subject -> marked.addAll(index.restingOn(subject)));
    settled = settled && marked.isEmpty();
  }

  /**
   * Calculates what is marked, as far as the time reaches.
   *
   * @param calculation of a crop and its hybrid
   * @param atRest whether nothing was on its way to the stores since the last {@link #mark}
   */
  void work(
      BiFunction<Subject, String, CropCalibration> calculation, boolean atRest, Duration longest) {
    long end = System.nanoTime() + longest.toNanos();
    List<Subject> first = List.copyOf(marked);
    List<Subject> then = onceMore.stream().filter(crop -> !marked.contains(crop)).toList();
    for (Subject crop : first) {
      marked.remove(crop);
      (calculate(crop, calculation) ? onceMore : marked).add(crop);
      if (System.nanoTime() - end > 0) {
        return;
      }
    }
    for (Subject crop : then) {
      onceMore.remove(crop);
      if (!calculate(crop, calculation) || !atRest) {
        onceMore.add(crop);
      }
      if (System.nanoTime() - end > 0) {
        return;
      }
    }
    settled = marked.isEmpty() && onceMore.isEmpty();
  }

  /** False where a dossier cannot be had now. */
  private boolean calculate(
      Subject crop, BiFunction<Subject, String, CropCalibration> calculation) {
    try {
      index.put(calculation.apply(crop, crops.get(crop)));
      return true;
    } catch (NotReady notNow) {
      LOG.debugf("The forecast of %s waits: %s", crop, notNow.getMessage());
      return false;
    }
  }
}
