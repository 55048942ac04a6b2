package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.OffTypesFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Found.At;
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
              byArea.ifPresent(limit -> verdicts.addAll(byArea(crop, part, inspections, limit)));
              byPlants.ifPresent(
                  limit -> verdicts.addAll(byPlants(crop, part, inspections, limit)));
            });
    if (verdicts.isEmpty()) {
      byArea
          .or(() -> byPlants)
          .map(limit -> Found.missing(Gate.OFF_TYPES, limit, wanted(byArea, byPlants)))
          .ifPresent(verdicts::add);
    }
    return verdicts;
  }

  private static Evidence wanted(Optional<Limit> byArea, Optional<Limit> byPlants) {
    if (byArea.isEmpty()) {
      return new Evidence.OffTypesByPlants();
    }
    return byPlants.isEmpty()
        ? new Evidence.OffTypesByArea()
        : new Evidence.OffTypesByAreaOrPlants();
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
      SeedCrop crop, InspectedPart part, List<FieldInspection> inspections, Limit limit) {
    return eachVisitAndAll(inspections, inspection -> inspection.getAreaM2() != null).stream()
        .map(visit -> byArea(crop, part, visit, limit))
        .toList();
  }

  private static Verdict byArea(SeedCrop crop, InspectedPart part, Visit visit, Limit limit) {
    List<FieldInspection> counts = visit.counts();
    int offTypes = offTypes(counts);
    double areaM2 = counts.stream().mapToDouble(FieldInspection::getAreaM2).sum();
    double enoughM2 = ExactPoisson.upperLimit(offTypes, 1, 1 - CONFIDENCE) / limit.value() - areaM2;
    Optional<Finding> settling =
        enoughM2 > 0
            ? Optional.of(
                new OffTypesFinding.FurtherArea(
                    Amount.squareMetres(Math.ceil(enoughM2)), Amount.percent(100 * CONFIDENCE)))
            : Optional.empty();
    return Found.of(
            At.aspect(
                Gate.OFF_TYPES,
                key(part, visit) + ", by area",
                new Aspect.PartByArea(part, visit.number())),
            ids(counts),
            new OffTypesFinding.ByArea(part, visit.number(), offTypes, Amount.squareMetres(areaM2)))
        .and(settling)
        .against(
            offTypes / areaM2,
            Optional.of(Found.measured(ExactPoisson.interval(offTypes, areaM2, CONFIDENCE))),
            limit,
            remedies(crop));
  }

  private static List<Verdict> byPlants(
      SeedCrop crop, InspectedPart part, List<FieldInspection> inspections, Limit limit) {
    return eachVisitAndAll(inspections, inspection -> inspection.getPlantsCounted() != null)
        .stream()
        .map(visit -> byPlants(crop, part, visit, limit))
        .toList();
  }

  private static Verdict byPlants(SeedCrop crop, InspectedPart part, Visit visit, Limit limit) {
    List<FieldInspection> counts = visit.counts();
    At at =
        At.aspect(
            Gate.OFF_TYPES,
            key(part, visit) + ", by plants",
            new Aspect.PartByPlants(part, visit.number()));
    for (FieldInspection count : counts) {
      if (count.getOffTypePlants() > count.getPlantsCounted()) {
        return Found.impossible(
            at,
            limit,
            Thing.OFF_TYPES,
            count.getOffTypePlants(),
            count.getPlantsCounted(),
            count.getHeader().getFactId());
      }
    }
    int offTypes = offTypes(counts);
    int plants =
        counts.stream().mapToInt(FieldInspection::getPlantsCounted).reduce(0, Math::addExact);
    return Found.of(
            at, ids(counts), new OffTypesFinding.ByPlants(part, visit.number(), offTypes, plants))
        .and(settling(offTypes, plants, limit))
        .against(
            (double) offTypes / plants,
            Optional.of(Found.measured(ExactBinomial.interval(offTypes, plants, CONFIDENCE))),
            limit,
            remedies(crop));
  }

  private static Optional<Finding> settling(int bad, int plants, Limit limit) {
    OptionalInt ifNoneBad = MoreUnits.toSettle(bad, plants, limit.value(), CONFIDENCE).ifNoneBad();
    return ifNoneBad.isPresent()
        ? Optional.of(
            new OffTypesFinding.FurtherPlants(
                ifNoneBad.getAsInt(), Amount.percent(100 * CONFIDENCE)))
        : Optional.empty();
  }

  private static List<Advice> remedies(SeedCrop crop) {
    return List.of(
        new Advice.RogueAndInspect(crop.endOfFlowering()), new Advice.AuthorityDecides());
  }

  /** Counts of one visit, or of all where the number is empty. */
  private record Visit(Optional<Integer> number, List<FieldInspection> counts) {}

  /** Counts of each visit, and where there was more than one visit, of all together. */
  private static List<Visit> eachVisitAndAll(
      List<FieldInspection> inspections, Predicate<FieldInspection> counted) {
    List<FieldInspection> counts = inspections.stream().filter(counted).toList();
    Map<Integer, List<FieldInspection>> byVisit =
        counts.stream()
            .collect(
                Collectors.groupingBy(
                    FieldInspection::getVisit, TreeMap::new, Collectors.toList()));
    List<Visit> visits = new ArrayList<>();
    byVisit.forEach((visit, made) -> visits.add(new Visit(Optional.of(visit), made)));
    if (byVisit.size() > 1) {
      visits.add(new Visit(Optional.empty(), counts));
    }
    return visits;
  }

  private static String key(InspectedPart part, Visit visit) {
    String name =
        switch (part) {
          case FEMALE -> "female";
          case POLLEN_PARENT -> "pollen parent";
          case WHOLE_CROP -> "whole crop";
        };
    return name + visit.number().map(number -> ", visit " + number).orElse(", all visits");
  }

  private static int offTypes(List<FieldInspection> counts) {
    return counts.stream().mapToInt(FieldInspection::getOffTypePlants).reduce(0, Math::addExact);
  }

  private static List<String> ids(List<FieldInspection> counts) {
    return counts.stream().map(count -> count.getHeader().getFactId()).toList();
  }
}
