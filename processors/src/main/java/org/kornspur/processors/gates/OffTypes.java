package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.ExactPoisson;
import org.kornspur.processors.statistics.MoreUnits;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Plants not true to type at field inspection, by area (plants for each square metre) or by plants
 * (plants for each plant counted), at each visit and over all visits.
 *
 * <p>Council Directive 66/402/EEC, Annex I; Seed Ordinance (SaatV), Annex 2 no. 1.1.1.1; 7 CFR
 * 201.76. The law's number is held against the observed count; the exact interval stands beside it.
 * In a mixture sown for F1 seed, plants of the pollen parent are no impurity (no. 1.1.1.1.2).
 */
final class OffTypes implements GateRule {
  private static final double CONFIDENCE = 0.95;
  private static final String REMEDY =
      "Rogue the crop and have it inspected again before it sheds, or leave the harvest as grain;"
          + " the certification authority decides.";

  @Override
  public Gate gate() {
    return Gate.OFF_TYPES;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook).map(OffTypes::judge).orElse(List.of());
  }

  private static List<Verdict> judge(SeedCrop crop) {
    Optional<Limit> byArea = crop.limit(Quantity.OFF_TYPES_BY_AREA);
    Optional<Limit> byPlants = crop.limit(Quantity.OFF_TYPES_BY_PLANTS);
    List<Verdict> verdicts = new ArrayList<>();
    inspectionsByPart(crop)
        .forEach(
            (part, inspections) -> {
              byArea.ifPresent(limit -> verdicts.addAll(byArea(part, inspections, limit)));
              byPlants.ifPresent(limit -> verdicts.addAll(byPlants(part, inspections, limit)));
            });
    if (verdicts.isEmpty()) {
      byArea
          .or(() -> byPlants)
          .map(limit -> Finding.missing(Gate.OFF_TYPES, "", limit, wanted(byArea, byPlants)))
          .ifPresent(verdicts::add);
    }
    return verdicts;
  }

  private static String wanted(Optional<Limit> byArea, Optional<Limit> byPlants) {
    String how = byArea.isPresent() ? byPlants.isPresent() ? "area or plants" : "area" : "plants";
    return "a field inspection with plants not true to type counted by " + how;
  }

  private static Map<InspectedPart, List<FieldInspection>> inspectionsByPart(SeedCrop crop) {
    return crop.inspections().stream()
        .filter(
            inspection ->
                crop.role() != CropRole.F1_MIXTURE
                    || inspection.getPart() != InspectedPart.POLLEN_PARENT)
        .collect(
            Collectors.groupingBy(
                FieldInspection::getPart,
                () -> new EnumMap<>(InspectedPart.class),
                Collectors.toList()));
  }

  private static List<Verdict> byArea(
      InspectedPart part, List<FieldInspection> inspections, Limit limit) {
    return eachVisitAndAll(
            part,
            inspections.stream().filter(inspection -> inspection.getAreaM2() != null).toList())
        .entrySet()
        .stream()
        .map(visit -> byArea(visit.getKey() + ", by area", visit.getValue(), limit))
        .toList();
  }

  private static Verdict byArea(String aspect, List<FieldInspection> counts, Limit limit) {
    int offTypes =
        counts.stream().mapToInt(FieldInspection::getOffTypePlants).reduce(0, Math::addExact);
    double areaM2 = counts.stream().mapToDouble(FieldInspection::getAreaM2).sum();
    double enoughM2 = ExactPoisson.upperLimit(offTypes, 1, 1 - CONFIDENCE) / limit.value() - areaM2;
    String settle =
        enoughM2 > 0
            ? ", and a further %s m2 without one would show with %s confidence that the limit holds"
                .formatted(Wording.number(Math.ceil(enoughM2)), Wording.percent(CONFIDENCE))
            : "";
    return new Finding(
            Gate.OFF_TYPES,
            aspect,
            offTypes / areaM2,
            Optional.of(Finding.measured(ExactPoisson.interval(offTypes, areaM2, CONFIDENCE))),
            ids(counts),
            "Off-types, %s: %d in %s m2%s"
                .formatted(aspect, offTypes, Wording.number(areaM2), settle))
        .against(limit, REMEDY);
  }

  private static List<Verdict> byPlants(
      InspectedPart part, List<FieldInspection> inspections, Limit limit) {
    return eachVisitAndAll(
            part,
            inspections.stream()
                .filter(inspection -> inspection.getPlantsCounted() != null)
                .toList())
        .entrySet()
        .stream()
        .map(visit -> byPlants(visit.getKey() + ", by plants", visit.getValue(), limit))
        .toList();
  }

  private static Verdict byPlants(String aspect, List<FieldInspection> counts, Limit limit) {
    for (FieldInspection count : counts) {
      if (count.getOffTypePlants() > count.getPlantsCounted()) {
        return Finding.impossible(
            Gate.OFF_TYPES,
            aspect,
            limit,
            count.getOffTypePlants(),
            count.getPlantsCounted(),
            "plant(s) not true to type",
            count.getHeader().getFactId());
      }
    }
    int offTypes =
        counts.stream().mapToInt(FieldInspection::getOffTypePlants).reduce(0, Math::addExact);
    int plants =
        counts.stream().mapToInt(FieldInspection::getPlantsCounted).reduce(0, Math::addExact);
    return new Finding(
            Gate.OFF_TYPES,
            aspect,
            (double) offTypes / plants,
            Optional.of(Finding.measured(ExactBinomial.interval(offTypes, plants, CONFIDENCE))),
            ids(counts),
            "Off-types, %s: %d among %s%s"
                .formatted(
                    aspect,
                    offTypes,
                    Counted.of(plants, "plant(s)"),
                    settling(offTypes, plants, limit)))
        .against(limit, REMEDY);
  }

  private static String settling(int bad, int plants, Limit limit) {
    MoreUnits more = MoreUnits.toSettle(bad, plants, limit.value(), CONFIDENCE);
    return more.ifNoneBad().isPresent()
        ? ", and a further %s without one would show with %s confidence that the limit holds"
            .formatted(
                Counted.of(more.ifNoneBad().getAsInt(), "plant(s)"), Wording.percent(CONFIDENCE))
        : "";
  }

  /** Counts of each visit, and where there was more than one visit, of all together. */
  private static Map<String, List<FieldInspection>> eachVisitAndAll(
      InspectedPart part, List<FieldInspection> inspections) {
    Map<Integer, List<FieldInspection>> byVisit =
        inspections.stream()
            .collect(
                Collectors.groupingBy(
                    FieldInspection::getVisit, TreeMap::new, Collectors.toList()));
    Map<String, List<FieldInspection>> counts = new TreeMap<>();
    byVisit.forEach((visit, made) -> counts.put(named(part) + ", visit " + visit, made));
    if (byVisit.size() > 1) {
      counts.put(named(part) + ", all visits", inspections);
    }
    return counts;
  }

  private static String named(InspectedPart part) {
    return switch (part) {
      case FEMALE -> "female";
      case POLLEN_PARENT -> "pollen parent";
      case WHOLE_CROP -> "whole crop";
    };
  }

  private static List<String> ids(List<FieldInspection> counts) {
    return counts.stream().map(count -> count.getHeader().getFactId()).toList();
  }
}
