package org.kornspur.processors.gates;

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
 * visit counted as the book has it, and by themselves as thin or dense as rye can stand. Where one
 * of both is too many, a count as the book has it is owed.
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
      SeedCrop crop, Stream<InspectedPart> parts, List<CountBasis> limited, Evidence wanted) {
    List<FieldInspection> counts =
        parts
            .flatMap(part -> visits(crop, part))
            .filter(visit -> limited.stream().noneMatch(by -> isWithin(crop, by, visit, limited)))
            .flatMap(visit -> otherwise(visit, limited))
            .toList();
    return counts.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Findings.of(
                    GateAspect.of(
                        Gate.OFF_TYPES, "counted otherwise", new Aspect.CountedOtherwise()),
                    FactType.idsOf(counts),
                    new InspectionFinding.CountedOtherwise(CountBasis.offTypes(counts)))
                .owed(wanted));
  }

  private static Stream<Visit> visits(SeedCrop crop, InspectedPart part) {
    return Visit.of(crop.inspections().stream().filter(count -> count.getPart() == part).toList())
        .stream();
  }

  private static Stream<FieldInspection> otherwise(Visit visit, List<CountBasis> limited) {
    return visit.counts().stream()
        .filter(count -> count.getOffTypePlants() > 0)
        .filter(count -> limited.stream().noneMatch(by -> by.reads(count)));
  }

  private static boolean isWithin(
      SeedCrop crop, CountBasis by, Visit visit, List<CountBasis> limited) {
    Limit limit = crop.limit(by.limited()).orElseThrow();
    List<FieldInspection> read = visit.counts().stream().filter(by::reads).toList();
    List<FieldInspection> otherwise = otherwise(visit, limited).toList();
    double found = CountBasis.offTypes(read) + (double) CountBasis.offTypes(otherwise);
    return limit.holds(found / by.among(read))
        && otherwise.stream()
            .allMatch(count -> limit.holds(count.getOffTypePlants() / by.amongAtMost(count)));
  }
}
