package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
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
  private static final String REMEDY =
      "Remove what sheds and have sterility checked again, or leave the harvest as grain; the"
          + " certification authority decides.";

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
                    .map(limit -> judge(dossier.facts(SterilityCheck.class), limit)))
        .orElse(List.of());
  }

  static boolean hasSterileFemale(CropRole role) {
    return switch (role) {
      case STERILE_FEMALE, F1_MIXTURE -> true;
      case MAINTAINER, POLLINATOR, FERTILE_LINE -> false;
    };
  }

  private static List<Verdict> judge(List<SterilityCheck> checks, Limit limit) {
    List<Verdict> verdicts = new ArrayList<>();
    verdict(
            "plants in flower",
            "shedding plant(s)",
            checks.stream().filter(check -> check.getPlantsExamined() > 0).toList(),
            SterilityCheck::getPlantsShedding,
            SterilityCheck::getPlantsExamined,
            limit)
        .ifPresent(verdicts::add);
    verdict(
            "bagged ears",
            "bagged ear(s) with seed",
            checks.stream()
                .filter(check -> check.getBaggedEars() != null && check.getBaggedEars() > 0)
                .filter(check -> check.getBaggedEarsWithSeed() != null)
                .toList(),
            SterilityCheck::getBaggedEarsWithSeed,
            SterilityCheck::getBaggedEars,
            limit)
        .ifPresent(verdicts::add);
    return verdicts.isEmpty()
        ? List.of(
            Finding.missing(
                Gate.FEMALE_STERILITY,
                "",
                limit,
                "a sterility check of the female, by plants examined in flower or by bagged ears"))
        : verdicts;
  }

  private static Optional<Verdict> verdict(
      String aspect,
      String whatFails,
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
            Finding.impossible(
                Gate.FEMALE_STERILITY,
                aspect,
                limit,
                failing.applyAsInt(check),
                examined.applyAsInt(check),
                whatFails,
                check.getHeader().getFactId()));
      }
    }
    int failed = checks.stream().mapToInt(failing).reduce(0, Math::addExact);
    int all = checks.stream().mapToInt(examined).reduce(0, Math::addExact);
    double percent = 100.0 * (all - failed) / all;
    return Optional.of(
        new Finding(
                Gate.FEMALE_STERILITY,
                aspect,
                percent,
                Optional.of(
                    Finding.measuredPercent(ExactBinomial.interval(all - failed, all, CONFIDENCE))),
                checks.stream().map(check -> check.getHeader().getFactId()).toList(),
                "Sterility of the female by %s is %s %% (%s among %d)"
                    .formatted(aspect, Wording.number(percent), Counted.of(failed, whatFails), all))
            .against(limit, REMEDY));
  }
}
