package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.PlantsFinding;
import org.kornspur.processors.gates.Found.At;
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
 * <p>Seed Ordinance (SaatV), Annex 2 no. 1.1.1.2, 1.1.1.3 and 1.2.1.2.
 */
final class OtherPlants implements GateRule {
  private static final double CONFIDENCE = 0.95;

  private record Kind(Quantity quantity, String key, Function<FieldInspection, Integer> count) {
    At at() {
      return At.aspect(Gate.OTHER_PLANTS, key, new Aspect.Kind(quantity));
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
  public Gate gate() {
    return Gate.OTHER_PLANTS;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .map(
            crop ->
                KINDS.stream()
                    .flatMap(
                        kind ->
                            crop
                                .limit(kind.quantity())
                                .map(limit -> judge(crop, kind, limit))
                                .stream())
                    .toList())
        .orElse(List.of());
  }

  private static Verdict judge(SeedCrop crop, Kind kind, Limit limit) {
    List<FieldInspection> counts =
        crop.inspections().stream()
            .filter(inspection -> inspection.getAreaM2() != null)
            .filter(inspection -> kind.count().apply(inspection) != null)
            .toList();
    if (counts.isEmpty()) {
      return Found.missing(kind.at(), limit, new Evidence.PlantCount(kind.quantity()));
    }
    int plants =
        counts.stream().mapToInt(count -> kind.count().apply(count)).reduce(0, Math::addExact);
    double areaM2 = counts.stream().mapToDouble(FieldInspection::getAreaM2).sum();
    return Found.of(
            kind.at(),
            counts.stream().map(count -> count.getHeader().getFactId()).toList(),
            new PlantsFinding.Counted(kind.quantity(), plants, Amount.squareMetres(areaM2)))
        .against(
            plants / areaM2,
            Optional.of(Found.measured(ExactPoisson.interval(plants, areaM2, CONFIDENCE))),
            limit,
            List.of(new Advice.RemoveAndInspect(crop.endOfFlowering())));
  }
}
