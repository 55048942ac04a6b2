package org.kornspur.processors.gates;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.InspectionFinding;
import org.kornspur.processors.finding.PlantsFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactPoisson;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Other cereals, species whose seed is hard to clean out, wild oats and smuts in the crop, plants
 * for each square metre on the average of the counts.
 *
 * <p>Seed Ordinance (SaatV), Annex 2 no. 1.1.1.2, 1.1.1.3 and 1.2.1.2. Plants that a later visit
 * finds gone did not set seed; too small a count owes a larger one unless it fails already.
 */
final class OtherPlantsGate implements GateRule {
  private static final double CONFIDENCE = 0.95;

  private record Kind(Quantity quantity, String key, Function<FieldInspection, Integer> count) {
    /** Plants with smut may not be taken out of the crop: SaatV, Annex 2 no. 1.2.2. */
    boolean mayBeRemoved() {
      return quantity != Quantity.SMUT_PLANTS;
    }

    GateAspect at(String part) {
      return GateAspect.of(Gate.OTHER_PLANTS, key + part, new Aspect.Kind(quantity));
    }

    int plants(List<FieldInspection> counts) {
      return counts.stream().mapToInt(c -> count.apply(c)).reduce(0, Math::addExact);
    }
  }

  private static final List<Kind> KINDS =
      List.of(
          new Kind(
              Quantity.OTHER_CEREAL_PLANTS, "other cereals", FieldInspection::getOtherCerealPlants),
          new Kind(
              Quantity.HARD_TO_SEPARATE_PLANTS,
              "species hard to separate",
              FieldInspection::getHardToSeparatePlants),
          new Kind(Quantity.WILD_OAT_PLANTS, "wild oats", FieldInspection::getWildOatPlants),
          new Kind(Quantity.SMUT_PLANTS, "smuts", FieldInspection::getSmutPlants));

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .map(
            crop ->
                Stream.concat(
                        KINDS.stream()
                            .flatMap(
                                kind ->
                                    crop.limit(kind.quantity())
                                        .map(limit -> judge(crop, kind, limit).stream())
                                        .orElseGet(Stream::empty)),
                        countedOtherwise(crop).stream())
                    .toList())
        .orElse(List.of());
  }

  /**
   * Plants that were found over no area are held against the limit as if they stood in the area of
   * the same visit, and by themselves as thin as rye can stand; without such an area as dense as it
   * can. A later count that is enough finds them gone. Common practice, no source.
   */
  private static Optional<Verdict> countedOtherwise(SeedCrop crop) {
    Map<Kind, List<FieldInspection>> tooMany = new LinkedHashMap<>();
    for (Kind kind : KINDS) {
      List<FieldInspection> counts =
          crop.limit(kind.quantity()).stream()
              .flatMap(limit -> tooMany(crop, kind, limit))
              .toList();
      if (!counts.isEmpty()) {
        tooMany.put(kind, counts);
      }
    }
    return tooMany.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Findings.of(
                    GateAspect.of(
                        Gate.OTHER_PLANTS, "counted otherwise", new Aspect.CountedOtherwise()),
                    FactType.idsOf(
                        tooMany.values().stream().flatMap(List::stream).distinct().toList()),
                    new InspectionFinding.CountedOtherwise(
                        tooMany.entrySet().stream()
                            .mapToInt(of -> of.getKey().plants(of.getValue()))
                            .reduce(0, Math::addExact)))
                .owed(
                    tooMany.keySet().stream()
                        .map(kind -> new Evidence.PlantCount(kind.quantity()))
                        .toArray(Evidence[]::new)));
  }

  private static Stream<FieldInspection> tooMany(SeedCrop crop, Kind kind, Limit limit) {
    return Arrays.stream(InspectedPart.values())
        .map(part -> crop.inspections(part))
        .flatMap(
            counts -> {
              Roguing later =
                  roguing(crop, kind, limit, Visit.of(overArea(crop, kind, limit, counts)));
              return Visit.of(counts).stream()
                  .filter(visit -> !isWithin(crop, kind, limit, visit))
                  .filter(visit -> !later.isMended(new Roguing.Count(visit, 1, 0)));
            })
        .flatMap(visit -> overNoArea(kind, visit).stream());
  }

  private static boolean isWithin(SeedCrop crop, Kind kind, Limit limit, Visit visit) {
    List<FieldInspection> otherwise = overNoArea(kind, visit);
    List<FieldInspection> read = overArea(crop, kind, limit, visit.counts());
    if (read.isEmpty()) {
      return otherwise.stream()
          .allMatch(
              count ->
                  limit.holds(
                      kind.count().apply(count) / OffTypeCountBasis.AREA.amongAtLeast(count)));
    }
    double found = kind.plants(read) + (double) kind.plants(otherwise);
    double areaM2 = OffTypeCountBasis.AREA.among(read);
    return new SampleSize(crop.limit(Quantity.COUNTED_AREA)).isEnough(areaM2)
        && limit.holds(found / areaM2)
        && otherwise.stream()
            .allMatch(
                count ->
                    limit.holds(
                        kind.count().apply(count) / OffTypeCountBasis.AREA.amongAtMost(count)));
  }

  private static List<FieldInspection> overNoArea(Kind kind, Visit visit) {
    return visit.counts().stream()
        .filter(inspection -> inspection.getAreaM2() == null)
        .filter(inspection -> kind.count().apply(inspection) != null)
        .filter(inspection -> kind.count().apply(inspection) > 0)
        .toList();
  }

  private static List<FieldInspection> overArea(
      SeedCrop crop, Kind kind, Limit limit, List<FieldInspection> inspections) {
    return crop.counting(
        inspections.stream()
            .filter(inspection -> inspection.getAreaM2() != null)
            .filter(inspection -> kind.count().apply(inspection) != null)
            .toList(),
        count -> !limit.holds(kind.count().apply(count) / count.getAreaM2()));
  }

  /**
   * Of strips and mixtures what is harvested has to be counted enough; besides, no part by itself
   * may have too many, so that the clean ground of one says nothing of another.
   */
  private static List<Verdict> judge(SeedCrop crop, Kind kind, Limit limit) {
    if (!FemaleSterilityGate.hasSterileFemale(crop.role())) {
      return List.of(judge(crop, kind, limit, kind.at(""), crop.inspections()));
    }
    Verdict ofHarvested =
        judge(
            crop,
            kind,
            limit,
            kind.at(""),
            crop.inspections().stream()
                .filter(count -> count.getPart() != InspectedPart.POLLEN_PARENT)
                .toList());
    Stream<Verdict> ofParts =
        Arrays.stream(InspectedPart.values())
            .filter(
                part ->
                    part == InspectedPart.POLLEN_PARENT || !(ofHarvested instanceof Verdict.NotMet))
            .map(
                part ->
                    judge(
                        crop,
                        kind,
                        limit,
                        kind.at(", " + part.name().toLowerCase(Locale.ROOT).replace('_', ' ')),
                        crop.inspections(part)))
            .filter(Verdict.NotMet.class::isInstance);
    return Stream.concat(Stream.of(ofHarvested), ofParts).toList();
  }

  private static Verdict judge(
      SeedCrop crop, Kind kind, Limit limit, GateAspect at, List<FieldInspection> inspections) {
    List<FieldInspection> counts = overArea(crop, kind, limit, inspections);
    if (counts.isEmpty()) {
      return Findings.missing(at, limit, new Evidence.PlantCount(kind.quantity()));
    }
    SampleSize size = new SampleSize(crop.limit(Quantity.COUNTED_AREA));
    List<Visit> visits = Visit.of(counts);
    Roguing roguing = roguing(crop, kind, limit, visits);
    Roguing.Remaining rest = roguing.all();
    double tellingM2 =
        roguing.counts().stream()
            .filter(count -> crop.tells(count.visit()))
            .mapToDouble(Roguing.Count::among)
            .sum();
    Findings found =
        Findings.of(
                at,
                FactType.idsOf(counts),
                new PlantsFinding.Counted(
                    kind.quantity(), rest.found(), Amount.squareMetres(rest.among())))
            .and(
                Optional.of(roguing.gone())
                    .filter(gone -> !gone.isEmpty())
                    .map(PlantsFinding.Gone::new))
            .and(SampleSize.riskOfArea(rest.among(), limit.value()));
    if (limit.holds(rest.rate()) && !size.isEnough(tellingM2)) {
      return owed(found, crop, size, visits, tellingM2, limit);
    }
    return found.against(
        rest.rate(),
        Optional.of(
            Findings.measured(ExactPoisson.interval(rest.found(), rest.among(), CONFIDENCE))),
        limit,
        List.of(
            kind.mayBeRemoved()
                ? new Advice.RemoveAndInspect(crop.endOfFlowering())
                : new Advice.AuthorityDecides()));
  }

  private static Verdict owed(
      Findings found,
      SeedCrop crop,
      SampleSize size,
      List<Visit> visits,
      double tellingM2,
      Limit limit) {
    return found
        .and(SampleSize.tooEarly(crop, visits))
        .and(size.tooSmall(tellingM2))
        .owed(limit, new Evidence.CountFromStage(size.leastAmount(), crop.stageFrom()));
  }

  private static Roguing roguing(SeedCrop crop, Kind kind, Limit limit, List<Visit> visits) {
    SampleSize size = new SampleSize(crop.limit(Quantity.COUNTED_AREA));
    return new Roguing(
        visits.stream().map(visit -> count(visit, kind)).toList(),
        limit,
        count -> kind.mayBeRemoved() && size.isEnough(count.among()) && crop.tells(count.visit()),
        Roguing.Flowering.unknown(),
        false);
  }

  private static Roguing.Count count(Visit visit, Kind kind) {
    return new Roguing.Count(
        visit, kind.plants(visit.counts()), OffTypeCountBasis.AREA.among(visit.counts()));
  }
}
