package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Plants of the female that shed pollen, for each plant of the female in receptive flower, at each
 * visit and over all visits. Only visits at which both were counted tell.
 *
 * <p>Council Directive 66/402/EEC, Annex I, by its complement: at least 98 % of the male-sterile
 * component is sterile.
 */
final class SheddingFemales implements GateRule {
  private static final double CONFIDENCE = 0.95;
  private static final String EVIDENCE =
      "a visit in flower (BBCH 61 to 69) with shedding plants counted over female plants in"
          + " receptive flower";
  private static final String REMEDY =
      "Remove the shedding plants before the next day of flowering and have them counted again, or"
          + " leave the harvest as grain; the certification authority decides.";

  @Override
  public Gate gate() {
    return Gate.SHEDDING_FEMALES;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .filter(crop -> FemaleSterility.hasSterileFemale(crop.role()))
        .map(SheddingFemales::judge)
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedCrop crop) {
    List<FieldInspection> telling =
        crop.inspections().stream()
            .filter(inspection -> inspection.getPart() == InspectedPart.FEMALE)
            .filter(inspection -> inspection.getSheddingPlants() != null)
            .filter(
                inspection ->
                    inspection.getPlantsInReceptiveFlower() != null
                        && inspection.getPlantsInReceptiveFlower() > 0)
            .toList();
    Map<Integer, List<FieldInspection>> byVisit =
        telling.stream()
            .collect(
                Collectors.groupingBy(
                    FieldInspection::getVisit, TreeMap::new, Collectors.toList()));
    List<Verdict> verdicts = new ArrayList<>();
    crop.limit(Quantity.SHEDDING_FEMALES)
        .ifPresent(
            limit ->
                byVisit.forEach(
                    (visit, counts) -> verdicts.add(verdict("visit " + visit, counts, limit))));
    crop.limit(Quantity.SHEDDING_FEMALES_ALL_VISITS)
        .ifPresent(
            limit ->
                verdicts.add(
                    telling.isEmpty()
                        ? Finding.missing(Gate.SHEDDING_FEMALES, "all visits", limit, EVIDENCE)
                        : verdict("all visits", telling, limit)));
    if (verdicts.isEmpty()) {
      crop.limit(Quantity.SHEDDING_FEMALES)
          .map(limit -> Finding.missing(Gate.SHEDDING_FEMALES, "each visit", limit, EVIDENCE))
          .ifPresent(verdicts::add);
    }
    return verdicts;
  }

  private static Verdict verdict(String aspect, List<FieldInspection> counts, Limit limit) {
    for (FieldInspection count : counts) {
      if (count.getSheddingPlants() > count.getPlantsInReceptiveFlower()) {
        return Finding.impossible(
            Gate.SHEDDING_FEMALES,
            aspect,
            limit,
            count.getSheddingPlants(),
            count.getPlantsInReceptiveFlower(),
            "shedding plant(s)",
            count.getHeader().getFactId());
      }
    }
    int shedding =
        counts.stream().mapToInt(FieldInspection::getSheddingPlants).reduce(0, Math::addExact);
    int receptive =
        counts.stream()
            .mapToInt(FieldInspection::getPlantsInReceptiveFlower)
            .reduce(0, Math::addExact);
    return new Finding(
            Gate.SHEDDING_FEMALES,
            aspect,
            (double) shedding / receptive,
            Optional.of(Finding.measured(ExactBinomial.interval(shedding, receptive, CONFIDENCE))),
            counts.stream().map(count -> count.getHeader().getFactId()).toList(),
            "Shedding females, %s: %d among %d in receptive flower (%s)"
                .formatted(
                    aspect, shedding, receptive, Wording.percent((double) shedding / receptive)))
        .against(limit, REMEDY);
  }
}
