package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.SheddingFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Found.At;
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
                    (visit, counts) ->
                        verdicts.add(
                            verdict(
                                crop,
                                at("visit " + visit, new Aspect.Visit(visit)),
                                Optional.of(visit),
                                counts,
                                limit))));
    At all = at("all visits", new Aspect.AllVisits());
    crop.limit(Quantity.SHEDDING_FEMALES_ALL_VISITS)
        .ifPresent(
            limit ->
                verdicts.add(
                    telling.isEmpty()
                        ? Found.missing(all, limit, new Evidence.SheddingCount())
                        : verdict(crop, all, Optional.empty(), telling, limit)));
    if (verdicts.isEmpty()) {
      At each = at("each visit", new Aspect.EachVisit());
      crop.limit(Quantity.SHEDDING_FEMALES)
          .map(limit -> Found.missing(each, limit, new Evidence.SheddingCount()))
          .ifPresent(verdicts::add);
    }
    return verdicts;
  }

  private static At at(String key, Aspect aspect) {
    return At.aspect(Gate.SHEDDING_FEMALES, key, aspect);
  }

  private static Verdict verdict(
      SeedCrop crop, At at, Optional<Integer> visit, List<FieldInspection> counts, Limit limit) {
    for (FieldInspection count : counts) {
      if (count.getSheddingPlants() > count.getPlantsInReceptiveFlower()) {
        return Found.impossible(
            at,
            limit,
            Thing.SHEDDING_PLANTS,
            count.getSheddingPlants(),
            count.getPlantsInReceptiveFlower(),
            count.getHeader().getFactId());
      }
    }
    int shedding =
        counts.stream().mapToInt(FieldInspection::getSheddingPlants).reduce(0, Math::addExact);
    int receptive =
        counts.stream()
            .mapToInt(FieldInspection::getPlantsInReceptiveFlower)
            .reduce(0, Math::addExact);
    double share = (double) shedding / receptive;
    return Found.of(
            at,
            counts.stream().map(count -> count.getHeader().getFactId()).toList(),
            new SheddingFinding.Counted(visit, shedding, receptive, Amount.percent(100 * share)))
        .against(
            share,
            Optional.of(Found.measured(ExactBinomial.interval(shedding, receptive, CONFIDENCE))),
            limit,
            List.of(
                new Advice.RemoveShedding(crop.endOfFlowering()), new Advice.AuthorityDecides()));
  }
}
