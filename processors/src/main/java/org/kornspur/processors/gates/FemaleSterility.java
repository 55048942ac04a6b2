package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import java.util.stream.Stream;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.SterilityFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.ground.FloweringWindow;
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
 * component is made. All checks of the crop are taken together. Plants that were examined while the
 * crop does not flower by its declaration show nothing; too few owe a larger check.
 */
final class FemaleSterility implements GateRule {
  private static final double CONFIDENCE = 0.95;

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
    Examined plants =
        new Examined(
            crop,
            GateAspect.of(Gate.FEMALE_STERILITY, "plants in flower", new Aspect.PlantsInFlower()),
            Thing.SHEDDING_PLANTS,
            checks.stream().filter(check -> check.getPlantsExamined() > 0).toList(),
            SterilityCheck::getPlantsShedding,
            SterilityCheck::getPlantsExamined,
            Quantity.EXAMINED_PLANTS);
    Examined ears =
        new Examined(
            crop,
            GateAspect.of(Gate.FEMALE_STERILITY, "bagged ears", new Aspect.BaggedEars()),
            Thing.BAGGED_EARS_WITH_SEED,
            checks.stream()
                .filter(check -> check.getBaggedEars() != null && check.getBaggedEars() > 0)
                .filter(check -> check.getBaggedEarsWithSeed() != null)
                .toList(),
            SterilityCheck::getBaggedEarsWithSeed,
            SterilityCheck::getBaggedEars,
            Quantity.BAGGED_EARS);
    List<Verdict> verdicts =
        Stream.of(plants.verdict(limit, ears.isEnough()), ears.verdict(limit, plants.isEnough()))
            .flatMap(Optional::stream)
            .toList();
    return verdicts.isEmpty()
        ? List.of(Findings.missing(Gate.FEMALE_STERILITY, limit, new Evidence.SterilityCheck()))
        : verdicts;
  }

  /** Plants or ears of all checks. */
  private record Examined(
      SeedCrop crop,
      GateAspect at,
      Thing whatFails,
      List<SterilityCheck> checks,
      ToIntFunction<SterilityCheck> failing,
      ToIntFunction<SterilityCheck> examined,
      Quantity least) {

    /** Whether enough was examined, at a time when it shows. */
    boolean isEnough() {
      return !checks.isEmpty()
          && size().isEnough(sum(checks.stream().filter(this::tells).toList()));
    }

    /** Too few that do not fail say nothing where enough of the other kind do. */
    Optional<Verdict> verdict(Limit limit, boolean othersAreEnough) {
      if (checks.isEmpty()) {
        return Optional.empty();
      }
      for (SterilityCheck check : checks) {
        if (failing.applyAsInt(check) > examined.applyAsInt(check)) {
          return Optional.of(
              Findings.impossible(
                  at,
                  limit,
                  whatFails,
                  failing.applyAsInt(check),
                  examined.applyAsInt(check),
                  check.getHeader().getFactId()));
        }
      }
      int failed = checks.stream().mapToInt(failing).reduce(0, Math::addExact);
      int all = sum(checks);
      double percent = 100.0 * (all - failed) / all;
      Findings found =
          Findings.of(
                  at,
                  FactType.idsOf(checks),
                  whatFails == Thing.SHEDDING_PLANTS
                      ? new SterilityFinding.Plants(Amount.percent(percent), failed, all)
                      : new SterilityFinding.BaggedEars(Amount.percent(percent), failed, all))
              .and(SampleSize.riskOfShare(all, 1 - limit.value() / 100));
      if (limit.holds(percent) && !isEnough()) {
        return othersAreEnough ? Optional.empty() : Optional.of(owed(found, limit));
      }
      return Optional.of(
          found.against(
              percent,
              Optional.of(
                  Findings.measuredPercent(ExactBinomial.interval(all - failed, all, CONFIDENCE))),
              limit,
              List.of(
                  new Advice.RemoveSheddingAndCheck(crop.endOfFlowering()),
                  new Advice.AuthorityDecides())));
    }

    private Verdict owed(Findings found, Limit limit) {
      int outOfFlower = (int) checks.stream().filter(check -> !tells(check)).count();
      Findings thin =
          outOfFlower > 0 ? found.and(new SterilityFinding.NotInFlower(outOfFlower)) : found;
      return thin.and(size().tooSmall(sum(checks.stream().filter(this::tells).toList())))
          .owed(
              limit,
              FloweringWindow.flowering(crop.declaration()).isKnown()
                  ? new Evidence.LargerCount(size().leastAmount())
                  : new Evidence.FloweringDays());
    }

    private SampleSize size() {
      return new SampleSize(crop.limit(least));
    }

    private int sum(List<SterilityCheck> some) {
      return some.stream().mapToInt(examined).reduce(0, Math::addExact);
    }

    /** A plant shows whether it sheds while the crop flowers; a bagged ear afterwards too. */
    private boolean tells(SterilityCheck check) {
      if (whatFails != Thing.SHEDDING_PLANTS) {
        return true;
      }
      LocalDate day = FactType.dayOf(check);
      FloweringWindow flowering = FloweringWindow.flowering(crop.declaration());
      return flowering.from().filter(from -> !day.isBefore(from)).isPresent()
          && flowering.to().filter(to -> !day.isAfter(to)).isPresent();
    }
  }
}
