package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.contract.FactType;

/**
 * One visit of a field inspector.
 *
 * @param number number of the visit in the crop
 *     <p>Counts under one number may have been made on several days. Wherever it matters which day
 *     it was, that speaks which helps the crop least, so that no further count makes a visit
 *     better.
 * @param firstDay day of its first count
 * @param day day of its last count
 * @param firstStage growth stage, BBCH, of its earliest count
 * @param stage growth stage of its latest count
 * @param counts its counts
 */
record Visit(
    int number,
    LocalDate firstDay,
    LocalDate day,
    int firstStage,
    int stage,
    List<FieldInspection> counts) {
  /** First and last stage of flowering of cereals on the BBCH scale. */
  static final int FLOWERING_BEGINS = 61;

  static final int FLOWERING_ENDS = 69;

  /** The visits that counts were made at, by day and number. */
  static List<Visit> of(List<FieldInspection> counts) {
    return counts.stream()
        .collect(
            Collectors.groupingBy(FieldInspection::getVisit, TreeMap::new, Collectors.toList()))
        .entrySet()
        .stream()
        .map(made -> of(made.getKey(), made.getValue()))
        .sorted(Comparator.comparing(Visit::day).thenComparing(Visit::number))
        .toList();
  }

  private static Visit of(int number, List<FieldInspection> counts) {
    return new Visit(
        number,
        counts.stream().map(FactType::dayOf).min(LocalDate::compareTo).orElseThrow(),
        counts.stream().map(FactType::dayOf).max(LocalDate::compareTo).orElseThrow(),
        counts.stream().mapToInt(FieldInspection::getBbchStage).min().orElseThrow(),
        counts.stream().mapToInt(FieldInspection::getBbchStage).max().orElseThrow(),
        counts);
  }

  /** Whether plants of the crop may have shed by then. */
  boolean isFromFloweringOn() {
    return stage >= FLOWERING_BEGINS;
  }

  boolean isInFlower() {
    return firstStage >= FLOWERING_BEGINS && stage <= FLOWERING_ENDS;
  }

  List<String> factIds() {
    return FactType.idsOf(counts);
  }
}
