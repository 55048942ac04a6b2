package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.SterilityFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Found.At;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Sterility of the female, percent, by plants examined in flower and by ears bagged before it.
 *
 * <p>Seed Ordinance (SaatV), Annex 2 no. 1.4.2.1: at least 98 % when basic seed of the female
 * component is made. All checks of the crop are taken together.
 */
final class FemaleSterility implements GateRule {
  private static final double CONFIDENCE = 0.95;

  @Override
  public Gate gate() {
    return Gate.FEMALE_STERILITY;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .filter(crop -> hasSterileFemale(crop.role()))
        .flatMap(
            crop ->
                crop.limit(Quantity.FEMALE_STERILITY)
                    .map(limit -> judge(crop, dossier.facts(SterilityCheck.class), limit)))
        .orElse(List.of());
  }

  static boolean hasSterileFemale(CropRole role) {
    return switch (role) {
      case STERILE_FEMALE, F1_MIXTURE -> true;
      case MAINTAINER, POLLINATOR, FERTILE_LINE -> false;
    };
  }

  private static List<Verdict> judge(SeedCrop crop, List<SterilityCheck> checks, Limit limit) {
    List<Verdict> verdicts = new ArrayList<>();
    verdict(
            crop,
            At.aspect(Gate.FEMALE_STERILITY, "plants in flower", new Aspect.PlantsInFlower()),
            Thing.SHEDDING_PLANTS,
            checks.stream().filter(check -> check.getPlantsExamined() > 0).toList(),
            SterilityCheck::getPlantsShedding,
            SterilityCheck::getPlantsExamined,
            limit)
        .ifPresent(verdicts::add);
    verdict(
            crop,
            At.aspect(Gate.FEMALE_STERILITY, "bagged ears", new Aspect.BaggedEars()),
            Thing.BAGGED_EARS_WITH_SEED,
            checks.stream()
                .filter(check -> check.getBaggedEars() != null && check.getBaggedEars() > 0)
                .filter(check -> check.getBaggedEarsWithSeed() != null)
                .toList(),
            SterilityCheck::getBaggedEarsWithSeed,
            SterilityCheck::getBaggedEars,
            limit)
        .ifPresent(verdicts::add);
    return verdicts.isEmpty()
        ? List.of(Found.missing(Gate.FEMALE_STERILITY, limit, new Evidence.SterilityCheck()))
        : verdicts;
  }

  private static Optional<Verdict> verdict(
      SeedCrop crop,
      At at,
      Thing whatFails,
      List<SterilityCheck> checks,
      ToIntFunction<SterilityCheck> failing,
      ToIntFunction<SterilityCheck> examined,
      Limit limit) {
    if (checks.isEmpty()) {
      return Optional.empty();
    }
    for (SterilityCheck check : checks) {
      if (failing.applyAsInt(check) > examined.applyAsInt(check)) {
        return Optional.of(
            Found.impossible(
                at,
                limit,
                whatFails,
                failing.applyAsInt(check),
                examined.applyAsInt(check),
                check.getHeader().getFactId()));
      }
    }
    int failed = checks.stream().mapToInt(failing).reduce(0, Math::addExact);
    int all = checks.stream().mapToInt(examined).reduce(0, Math::addExact);
    double percent = 100.0 * (all - failed) / all;
    return Optional.of(
        Found.of(
                at,
                checks.stream().map(check -> check.getHeader().getFactId()).toList(),
                whatFails == Thing.SHEDDING_PLANTS
                    ? new SterilityFinding.Plants(Amount.percent(percent), failed, all)
                    : new SterilityFinding.BaggedEars(Amount.percent(percent), failed, all))
            .against(
                percent,
                Optional.of(
                    Found.measuredPercent(ExactBinomial.interval(all - failed, all, CONFIDENCE))),
                limit,
                List.of(
                    new Advice.RemoveSheddingAndCheck(crop.endOfFlowering()),
                    new Advice.AuthorityDecides())));
  }
}
