package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.FieldInspection;
import org.kornspur.processors.dossier.Dossier;
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

  private record Kind(Quantity quantity, String aspect, Function<FieldInspection, Integer> count) {}

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
      return Finding.missing(
          Gate.OTHER_PLANTS,
          kind.aspect(),
          limit,
          "a field inspection with %s counted over an area".formatted(kind.aspect()));
    }
    int plants =
        counts.stream().mapToInt(count -> kind.count().apply(count)).reduce(0, Math::addExact);
    double areaM2 = counts.stream().mapToDouble(FieldInspection::getAreaM2).sum();
    return new Finding(
            Gate.OTHER_PLANTS,
            kind.aspect(),
            plants / areaM2,
            Optional.of(Finding.measured(ExactPoisson.interval(plants, areaM2, CONFIDENCE))),
            counts.stream().map(count -> count.getHeader().getFactId()).toList(),
            "Plants of %s: %d in %s m2".formatted(kind.aspect(), plants, Wording.number(areaM2)))
        .against(
            limit, "Remove them and have the crop inspected again, or leave the harvest as grain.");
  }
}
