package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OffTypesFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Plants not true to type at field inspection, by area (plants for each square metre) or by plants
 * (plants for each plant counted), at each visit and over all visits.
 *
 * <p>Council Directive 66/402/EEC, Annex I; Seed Ordinance (SaatV), Annex 2 no. 1.1.1.1; 7 CFR
 * 201.76. The law's number is held against the observed count; the exact interval stands beside it,
 * wider where off-types stand in clusters. In a mixture sown for F1 seed, plants of the pollen
 * parent are no impurity (no. 1.1.1.1.2); that the female alone is counted was read in the English
 * transposition, technical annex of December 2016.
 *
 * <p>A count that is too small, or was made before off-types show, owes a larger one unless it
 * fails already. What a later visit found gone counts as {@link Roguing} says.
 */
final class OffTypesGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook).map(OffTypesGate::judge).orElse(List.of());
  }

  private static List<Verdict> judge(SeedCrop crop) {
    List<OffTypeCountBasis> limited = limited(crop).toList();
    if (limited.isEmpty()) {
      return List.of();
    }
    List<Verdict> verdicts = new ArrayList<>();
    judgedParts(crop)
        .forEach(part -> limited.forEach(by -> verdicts.addAll(judge(crop, part, by))));
    Limit limit = crop.limit(limited.get(0).limited()).orElseThrow();
    boolean isCounted =
        tellingParts(crop).stream()
            .anyMatch(part -> limited.stream().anyMatch(by -> !by.counts(crop, part).isEmpty()));
    if (!isCounted) {
      verdicts.add(Findings.missing(Gate.OFF_TYPES, limit, wanted(limited, !verdicts.isEmpty())));
    }
    if (crop.role() == CropRole.STERILE_FEMALE && !isPollenParentCounted(crop)) {
      verdicts.add(
          Findings.missing(
              GateAspect.of(Gate.OFF_TYPES, "pollen parent", new Aspect.PollenParent()),
              limit,
              new Evidence.VisitsToPollenParent(1)));
    }
    OffTypesCountedOtherwise.judge(crop, judgedParts(crop), limited, wanted(limited, false))
        .ifPresent(verdicts::add);
    return verdicts;
  }

  /** By itself, where too small a count owes a larger one, or enough with the whole crop. */
  private static boolean isPollenParentCounted(SeedCrop crop) {
    return limited(crop).anyMatch(by -> !by.counts(crop, InspectedPart.POLLEN_PARENT).isEmpty())
        || isEnough(crop, EnumSet.of(InspectedPart.WHOLE_CROP));
  }

  /** In a mixture plants of the pollen parent are no impurity. */
  private static Stream<InspectedPart> judgedParts(SeedCrop crop) {
    return Arrays.stream(InspectedPart.values())
        .filter(part -> crop.role() != CropRole.F1_MIXTURE || part != InspectedPart.POLLEN_PARENT);
  }

  private static Stream<OffTypeCountBasis> limited(SeedCrop crop) {
    return Arrays.stream(OffTypeCountBasis.values())
        .filter(by -> crop.limit(by.limited()).isPresent());
  }

  /** Parts of which one must be counted: of strips and mixtures what is harvested. */
  private static Set<InspectedPart> tellingParts(SeedCrop crop) {
    return FemaleSterilityGate.hasSterileFemale(crop.role())
        ? EnumSet.of(InspectedPart.FEMALE, InspectedPart.WHOLE_CROP)
        : EnumSet.allOf(InspectedPart.class);
  }

  private static Evidence wanted(List<OffTypeCountBasis> limited, boolean femaleAlone) {
    if (femaleAlone) {
      return new Evidence.OffTypesOfFemale();
    }
    if (limited.size() > 1) {
      return new Evidence.OffTypesByAreaOrPlants();
    }
    return limited.get(0) == OffTypeCountBasis.AREA
        ? new Evidence.OffTypesByArea()
        : new Evidence.OffTypesByPlants();
  }

  private static List<Verdict> judge(SeedCrop crop, InspectedPart part, OffTypeCountBasis by) {
    List<Visit> visits = Visit.of(by.counts(crop, part));
    Limit limit = crop.limit(by.limited()).orElseThrow();
    SampleSize size = new SampleSize(crop.limit(by.least()));
    Roguing roguing = roguing(crop, by, visits.stream().map(by::count).toList());
    Part counted = new Part(crop, part, by, limit, size, isEnough(crop, part));
    List<Verdict> verdicts = new ArrayList<>();
    for (Roguing.Count count : worstDays(roguing)) {
      verdicts.add(
          counted.verdict(
              Optional.of(count.visit().number()),
              List.of(count.visit()),
              () -> roguing.at(count)));
    }
    if (visits.size() > 1) {
      verdicts.add(counted.verdict(Optional.empty(), visits, roguing::all));
    }
    return verdicts;
  }

  static Roguing roguing(SeedCrop crop, OffTypeCountBasis by, List<Roguing.Count> counts) {
    SampleSize size = new SampleSize(crop.limit(by.least()));
    return new Roguing(
        counts,
        crop.limit(by.limited()).orElseThrow(),
        count -> size.isEnough(count.among()) && crop.tells(count.visit()),
        Roguing.Flowering.of(crop),
        true);
  }

  /** Of counts under one number those of the worst day. */
  private static List<Roguing.Count> worstDays(Roguing roguing) {
    Map<Integer, Roguing.Count> worst = new TreeMap<>();
    for (Roguing.Count count : roguing.counts()) {
      worst.merge(
          count.visit().number(),
          count,
          (one, other) -> roguing.at(other).rate() > roguing.at(one).rate() ? other : one);
    }
    return List.copyOf(worst.values());
  }

  /** Whether what is harvested, or the pollen parent beside it, was counted enough on any basis. */
  private static boolean isEnough(SeedCrop crop, InspectedPart part) {
    Set<InspectedPart> telling = tellingParts(crop);
    return isEnough(crop, telling.contains(part) ? telling : EnumSet.of(part));
  }

  private static boolean isEnough(SeedCrop crop, Set<InspectedPart> parts) {
    return limited(crop)
        .anyMatch(
            by ->
                new SampleSize(crop.limit(by.least()))
                    .isEnough(
                        parts.stream()
                            .flatMap(each -> Visit.of(by.counts(crop, each)).stream())
                            .filter(crop::tells)
                            .mapToDouble(visit -> by.count(visit).among())
                            .sum()));
  }

  /** The counts of one part of a crop on one basis. */
  private record Part(
      SeedCrop crop,
      InspectedPart part,
      OffTypeCountBasis by,
      Limit limit,
      SampleSize size,
      boolean isEnough) {

    Verdict verdict(
        Optional<Integer> number, List<Visit> visits, Supplier<Roguing.Remaining> remaining) {
      GateAspect at = GateAspect.of(Gate.OFF_TYPES, key(number), by.aspect(part, number));
      List<FieldInspection> counts = visits.stream().flatMap(v -> v.counts().stream()).toList();
      for (FieldInspection count : counts) {
        if (by.isImpossible(count)) {
          return Findings.impossible(
              at,
              limit,
              Thing.OFF_TYPES,
              count.getOffTypePlants(),
              count.getPlantsCounted(),
              count.getHeader().getFactId());
        }
      }
      Roguing.Remaining rest = remaining.get();
      Findings found =
          Findings.of(at, FactType.idsOf(counts), by.finding(part, number, counts)).and(rest.how());
      if (isPollenParentLeftOut()) {
        found = found.and(new OffTypesFinding.PollenParentLeftOut());
      }
      if (limit.holds(rest.rate()) && !isEnough) {
        return owed(found, visits, rest);
      }
      double clustering = by.clustering(rest);
      return found
          .and(by.settling(rest, limit))
          .and(by.risk(rest.among(), limit))
          .and(OffTypeCountBasis.clustered(clustering))
          .against(
              rest.rate(),
              Optional.of(Findings.measured(by.interval(rest, clustering))),
              limit,
              remedies(rest));
    }

    private Verdict owed(Findings found, List<Visit> visits, Roguing.Remaining rest) {
      return found
          .and(SampleSize.tooEarly(crop, visits))
          .and(size.tooSmall(rest.among()))
          .and(by.risk(rest.among(), limit))
          .owed(limit, new Evidence.CountFromStage(size.leastAmount(), crop.stageFrom()));
    }

    private boolean isPollenParentLeftOut() {
      return crop.role() == CropRole.F1_MIXTURE
          && !by.counts(crop, InspectedPart.POLLEN_PARENT).isEmpty();
    }

    private List<Advice> remedies(Roguing.Remaining rest) {
      boolean daysUnknown =
          rest.how().stream().anyMatch(OffTypesFinding.DaysOfSheddingUnknown.class::isInstance);
      return daysUnknown
          ? List.of(new Advice.EnterFloweringDays(), new Advice.AuthorityDecides())
          : List.of(
              new Advice.RogueAndInspect(crop.endOfFlowering()), new Advice.AuthorityDecides());
    }

    private String key(Optional<Integer> number) {
      String name =
          switch (part) {
            case FEMALE -> "female";
            case POLLEN_PARENT -> "pollen parent";
            case WHOLE_CROP -> "whole crop";
          };
      return name + number.map(visit -> ", visit " + visit).orElse(", all visits") + by.key();
    }
  }
}
