package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.ground.FloweringWindow;

/**
 * One day of a visit of a field inspector. Counts under one number that were made on several days
 * are told apart by day: a later count may find bad plants gone, it does not make them fewer.
 *
 * @param number number of the visit in the crop
 * @param firstStage growth stage, BBCH, of its earliest count; where it matters which stage it was,
 *     that speaks which helps the crop least, so that no further count makes a visit better
 * @param stage growth stage of its latest count
 * @param counts its counts
 */
record Visit(int number, LocalDate day, int firstStage, int stage, List<FieldInspection> counts) {

  /** The visits that counts were made at, by day and number. */
  static List<Visit> of(List<FieldInspection> counts) {
    return counts.stream()
        .collect(Collectors.groupingBy(Made::of, Collectors.toList()))
        .entrySet()
        .stream()
        .map(made -> of(made.getKey(), made.getValue()))
        .sorted(Comparator.comparing(Visit::day).thenComparing(Visit::number))
        .toList();
  }

  private record Made(int number, LocalDate day) {
    static Made of(FieldInspection count) {
      return new Made(count.getVisit(), FactType.dayOf(count));
    }
  }

  private static Visit of(Made made, List<FieldInspection> counts) {
    return new Visit(
        made.number(),
        made.day(),
        counts.stream().mapToInt(FieldInspection::getBbchStage).min().orElseThrow(),
        counts.stream().mapToInt(FieldInspection::getBbchStage).max().orElseThrow(),
        counts);
  }

  /** The days of each visit, by number. */
  static SortedMap<Integer, List<Visit>> byNumber(List<Visit> visits) {
    return visits.stream()
        .collect(Collectors.groupingBy(Visit::number, TreeMap::new, Collectors.toList()));
  }

  /** Whether plants of the crop may have shed by then. */
  boolean isFromFloweringOn() {
    return stage >= FloweringWindow.FIRST_STAGE;
  }

  boolean isInFlower() {
    return FloweringWindow.isInFlower(firstStage) && FloweringWindow.isInFlower(stage);
  }

  List<String> factIds() {
    return FactType.idsOf(counts);
  }
}
