package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.function.ToDoubleFunction;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.InspectionFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Visits of a field inspector to the crop, and how many of them in flower. Visits before the growth
 * stage from which on the crop shows what it is do not count, nor do two numbers of one day count
 * twice; those in flower count where they looked at the least sample of the book, by themselves or
 * together. In strips and mixtures those count that looked at more than the pollen parent.
 *
 * <p>Council Directive 66/402/EEC, Annex I (at least one); Seed Ordinance (SaatV), section 7(1) to
 * (2), which asks for visits to the fertile component beside the sterile one too. The growth stages
 * are common practice, no source. Too few are owed, since a visit can still be made or recorded.
 */
final class FieldInspectionsGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook).map(FieldInspectionsGate::judge).orElse(List.of());
  }

  private static List<Verdict> judge(SeedCrop crop) {
    List<Visit> harvested = visits(crop, InspectedPart.POLLEN_PARENT);
    List<Visit> telling = harvested.stream().filter(crop::tells).toList();
    List<Visit> inFlower = telling.stream().filter(Visit::isInFlower).toList();
    List<Verdict> verdicts = new ArrayList<>();
    crop.limit(Quantity.FIELD_INSPECTIONS)
        .ifPresent(limit -> verdicts.add(ofHarvested(crop, harvested, telling, limit)));
    crop.limit(Quantity.INSPECTIONS_IN_FLOWER)
        .ifPresent(limit -> verdicts.add(ofThoseInFlower(crop, inFlower, limit)));
    if (FemaleSterilityGate.hasSterileFemale(crop.role())) {
      List<Visit> pollenParent =
          visits(crop, InspectedPart.FEMALE).stream().filter(crop::tells).toList();
      crop.limit(Quantity.POLLEN_PARENT_INSPECTIONS)
          .ifPresent(
              limit ->
                  verdicts.add(
                      judge(
                          GateAspect.of(
                              Gate.FIELD_INSPECTIONS, "pollen parent", new Aspect.PollenParent()),
                          pollenParent,
                          new InspectionFinding.VisitsToPollenParent(number(pollenParent)),
                          limit,
                          Evidence.VisitsToPollenParent::new)));
    }
    return verdicts;
  }

  /** Visits to the crop but for those that looked at one part alone. */
  private static List<Visit> visits(SeedCrop crop, InspectedPart leftOut) {
    boolean hasParts = FemaleSterilityGate.hasSterileFemale(crop.role());
    return Visit.of(
        crop.inspections().stream()
            .filter(inspection -> !hasParts || inspection.getPart() != leftOut)
            .toList());
  }

  /** Two numbers given on one day are one visit, and one number given on two days. */
  private static int number(List<Visit> visits) {
    return (int)
        Visit.byNumber(visits).values().stream()
            .map(days -> days.get(days.size() - 1).day())
            .distinct()
            .count();
  }

  private static Verdict ofHarvested(
      SeedCrop crop, List<Visit> visits, List<Visit> telling, Limit limit) {
    Findings found =
        Findings.of(
            Gate.FIELD_INSPECTIONS,
            factIds(telling),
            new InspectionFinding.Visits(number(telling)));
    int early = Visit.byNumber(visits).size() - Visit.byNumber(telling).size();
    if (early > 0) {
      found = found.and(new InspectionFinding.TooEarly(early, crop.stageFrom()));
    }
    return judge(found, number(telling), limit, Evidence.FurtherVisits::new);
  }

  /** A glance at a few plants in flower is no visit to the crop: by itself, or with others. */
  private static Verdict ofThoseInFlower(SeedCrop crop, List<Visit> inFlower, Limit limit) {
    Findings found =
        Findings.of(
            GateAspect.of(Gate.FIELD_INSPECTIONS, "in flower", new Aspect.InFlower()),
            factIds(inFlower),
            new InspectionFinding.VisitsInFlower(number(inFlower)));
    double areaM2 = counted(inFlower, count -> Optional.ofNullable(count.getAreaM2()).orElse(0.0));
    SampleSize area = new SampleSize(crop.limit(Quantity.COUNTED_AREA));
    boolean isEnough =
        area.isEnough(areaM2)
            || new SampleSize(crop.limit(Quantity.COUNTED_PLANTS))
                .isEnough(counted(inFlower, FieldInspectionsGate::plants));
    return isEnough || inFlower.isEmpty()
        ? judge(found, number(inFlower), limit, Evidence.VisitsInFlower::new)
        : judge(found.and(area.tooSmall(areaM2)), 0, limit, Evidence.VisitsInFlower::new);
  }

  private static double counted(List<Visit> visits, ToDoubleFunction<FieldInspection> of) {
    return visits.stream().flatMap(visit -> visit.counts().stream()).mapToDouble(of).sum();
  }

  private static double plants(FieldInspection count) {
    return Math.max(
        Optional.ofNullable(count.getPlantsCounted()).orElse(0),
        Optional.ofNullable(count.getPlantsInReceptiveFlower()).orElse(0));
  }

  private static Verdict judge(
      GateAspect at,
      List<Visit> visits,
      InspectionFinding finding,
      Limit limit,
      IntFunction<Evidence> evidence) {
    return judge(Findings.of(at, factIds(visits), finding), number(visits), limit, evidence);
  }

  private static Verdict judge(
      Findings found, int visits, Limit limit, IntFunction<Evidence> evidence) {
    return limit.holds(visits)
        ? found.against(visits, limit, List.of())
        : found.owed(limit, evidence.apply((int) Math.ceil(limit.value() - visits)));
  }

  private static List<String> factIds(List<Visit> visits) {
    return visits.stream().flatMap(visit -> visit.factIds().stream()).toList();
  }
}
