package org.kornspur.processors.gates;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.InspectionFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Off-types that were found over what the book does not limit: among plants where it limits them by
 * area, or the other way round. They are held against the limit as if they stood in what the same
 * visit counted as the book has it, and by themselves as thin as rye can stand. Where one of both
 * is too many, a count as the book has it is owed. A visit without one is held against the limit as
 * dense as rye can stand, and so is what a later count as the book has it found gone.
 *
 * <p>Common practice, no source.
 */
final class OffTypesCountedOtherwise {

  private OffTypesCountedOtherwise() {}

  /**
   * Empty where there are none, or they are few enough.
   *
   * @param limited what the book limits
   */
  static Optional<Verdict> judge(
      SeedCrop crop,
      Stream<InspectedPart> parts,
      List<OffTypeCountBasis> limited,
      Evidence wanted) {
    List<FieldInspection> counts = parts.flatMap(part -> tooMany(crop, part, limited)).toList();
    return counts.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Findings.of(
                    GateAspect.of(
                        Gate.OFF_TYPES, "counted otherwise", new Aspect.CountedOtherwise()),
                    FactType.idsOf(counts),
                    new InspectionFinding.CountedOtherwise(OffTypeCountBasis.offTypes(counts)))
                .owed(wanted));
  }

  private static Stream<FieldInspection> tooMany(
      SeedCrop crop, InspectedPart part, List<OffTypeCountBasis> limited) {
    return Visit.of(crop.inspections(part)).stream()
        .filter(visit -> otherwise(visit, limited).findAny().isPresent())
        .filter(visit -> limited.stream().noneMatch(by -> isWithin(crop, by, visit, limited)))
        .filter(visit -> limited.stream().noneMatch(by -> isMended(crop, by, part, visit, limited)))
        .flatMap(visit -> otherwise(visit, limited));
  }

  private static Stream<FieldInspection> otherwise(Visit visit, List<OffTypeCountBasis> limited) {
    return visit.counts().stream()
        .filter(count -> count.getOffTypePlants() > 0)
        .filter(count -> limited.stream().noneMatch(by -> by.reads(count)));
  }

  private static boolean isWithin(
      SeedCrop crop, OffTypeCountBasis by, Visit visit, List<OffTypeCountBasis> limited) {
    Limit limit = crop.limit(by.limited()).orElseThrow();
    List<FieldInspection> read = by.counts(crop, visit.counts());
    List<FieldInspection> otherwise = otherwise(visit, limited).toList();
    if (read.isEmpty()) {
      return otherwise.stream()
          .allMatch(count -> limit.holds(count.getOffTypePlants() / by.amongAtLeast(count)));
    }
    double found =
        OffTypeCountBasis.offTypes(read) + (double) OffTypeCountBasis.offTypes(otherwise);
    return limit.holds(found / by.among(read))
        && otherwise.stream()
            .allMatch(count -> limit.holds(count.getOffTypePlants() / by.amongAtMost(count)));
  }

  private static boolean isMended(
      SeedCrop crop,
      OffTypeCountBasis by,
      InspectedPart part,
      Visit visit,
      List<OffTypeCountBasis> limited) {
    List<FieldInspection> otherwise = otherwise(visit, limited).toList();
    Roguing.Count found =
        new Roguing.Count(
            visit,
            OffTypeCountBasis.offTypes(otherwise),
            otherwise.stream().mapToDouble(by::amongAtLeast).sum());
    List<Roguing.Count> counts =
        Stream.concat(Visit.of(by.counts(crop, part)).stream().map(by::count), Stream.of(found))
            .sorted(Comparator.comparing(count -> count.visit().day()))
            .toList();
    return OffTypesGate.roguing(crop, by, counts).isMended(found);
  }
}
