package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Seeds of other species counted in a weighed sample, with the second samples that the text allows.
 *
 * <p>Council Directive 66/402/EEC, Annex II; Seed Ordinance (SaatV), Annex 3 no. 1.1.3.
 */
final class OtherSeedsGate implements GateRule {
  private record Kind(Quantity quantity, String key) {}

  private static final List<Kind> KINDS =
      List.of(
          new Kind(Quantity.OTHER_SEEDS_TOTAL, "seeds of other species"),
          new Kind(Quantity.OTHER_CEREAL_SEEDS, "seeds of other cereals"),
          new Kind(Quantity.OTHER_PLANT_SEEDS, "seeds of other plants"),
          new Kind(
              Quantity.RAPHANUS_AND_AGROSTEMMA_SEEDS,
              "seeds of Raphanus raphanistrum and Agrostemma githago"),
          new Kind(Quantity.WILD_OAT_SEEDS, "seeds of wild oats"),
          new Kind(Quantity.LOLIUM_TEMULENTUM_SEEDS, "seeds of Lolium temulentum"));

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.tested(dossier, rulebook, Gate.OTHER_SEEDS)
        .map(OtherSeedsGate::judge)
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot) {
    SampleCountRule samples = new SampleCountRule(lot);
    List<Verdict> verdicts =
        KINDS.stream()
            .flatMap(
                kind ->
                    lot
                        .limit(kind.quantity())
                        .map(
                            limit ->
                                samples.judge(
                                    GateAspect.of(
                                        Gate.OTHER_SEEDS,
                                        kind.key(),
                                        new Aspect.Kind(kind.quantity())),
                                    kind.quantity(),
                                    limit,
                                    lot.remedies(
                                        new Advice.CleanAndSample(), new Advice.NotAsSeed())))
                        .stream())
            .toList();
    if (!samples.none() || verdicts.isEmpty()) {
      return verdicts;
    }
    Optional<Verdict> onlyOwed = verdicts.stream().findFirst();
    List<Verdict> ofUnsplit = lot.verdictsOfUnsplitOr(Gate.OTHER_SEEDS, onlyOwed::orElseThrow);
    return ofUnsplit.equals(List.of(onlyOwed.get())) ? verdicts : ofUnsplit;
  }
}
