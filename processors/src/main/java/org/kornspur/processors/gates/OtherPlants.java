package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.contract.FieldInspection;
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
final class OtherPlants implements GateRule {
  private static final double CONFIDENCE = 0.95;

  private record Kind(Quantity quantity, String key, Function<FieldInspection, Integer> count) {
    /** Plants with smut may not be taken out of the crop: SaatV, Annex 2 no. 1.2.2. */
    boolean mayBeRemoved() {
      return quantity != Quantity.SMUT_PLANTS;
    }

    GateAspect at() {
      return GateAspect.of(Gate.OTHER_PLANTS, key, new Aspect.Kind(quantity));
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
                                    crop
                                        .limit(kind.quantity())
                                        .map(limit -> judge(crop, kind, limit))
                                        .stream()),
                        countedOtherwise(crop).stream())
                    .toList())
        .orElse(List.of());
  }

  /** Plants that were found over no area are held against nothing. */
  private static Optional<Verdict> countedOtherwise(SeedCrop crop) {
    List<Kind> kinds =
        KINDS.stream()
            .filter(kind -> crop.limit(kind.quantity()).isPresent())
            .filter(kind -> overNoArea(crop, kind).findAny().isPresent())
            .toList();
    List<FieldInspection> counts =
        kinds.stream().flatMap(kind -> overNoArea(crop, kind)).distinct().toList();
    int plants =
        kinds.stream()
            .flatMap(kind -> overNoArea(crop, kind).map(kind.count()))
            .reduce(0, Math::addExact);
    return kinds.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Findings.of(
                    GateAspect.of(
                        Gate.OTHER_PLANTS, "counted otherwise", new Aspect.CountedOtherwise()),
                    FactType.idsOf(counts),
                    new InspectionFinding.CountedOtherwise(plants))
                .owed(
                    kinds.stream()
                        .map(kind -> new Evidence.PlantCount(kind.quantity()))
                        .toArray(Evidence[]::new)));
  }

  private static Stream<FieldInspection> overNoArea(SeedCrop crop, Kind kind) {
    return crop.inspections().stream()
        .filter(inspection -> inspection.getAreaM2() == null)
        .filter(inspection -> kind.count().apply(inspection) != null)
        .filter(inspection -> kind.count().apply(inspection) > 0);
  }

  private static Verdict judge(SeedCrop crop, Kind kind, Limit limit) {
    List<FieldInspection> counts =
        crop.counting(
            crop.inspections().stream()
                .filter(inspection -> inspection.getAreaM2() != null)
                .filter(inspection -> kind.count().apply(inspection) != null)
                .toList(),
            count -> !limit.holds(kind.count().apply(count) / count.getAreaM2()));
    if (counts.isEmpty()) {
      return Findings.missing(kind.at(), limit, new Evidence.PlantCount(kind.quantity()));
    }
    SampleSize size = new SampleSize(crop.limit(Quantity.COUNTED_AREA));
    List<Visit> visits = Visit.of(counts);
    Roguing roguing =
        new Roguing(
            visits.stream().map(visit -> count(visit, kind)).toList(),
            limit,
            count ->
                kind.mayBeRemoved() && size.isEnough(count.among()) && crop.tells(count.visit()),
            Roguing.Flowering.unknown(),
            false);
    Roguing.Remaining rest = roguing.all();
    double tellingM2 =
        roguing.counts().stream()
            .filter(count -> crop.tells(count.visit()))
            .mapToDouble(Roguing.Count::among)
            .sum();
    Findings found =
        Findings.of(
                kind.at(),
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

  private static Roguing.Count count(Visit visit, Kind kind) {
    return new Roguing.Count(
        visit,
        visit.counts().stream().mapToInt(c -> kind.count().apply(c)).reduce(0, Math::addExact),
        visit.counts().stream().mapToDouble(FieldInspection::getAreaM2).sum());
  }
}
