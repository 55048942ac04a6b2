package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Sclerotia of Claviceps purpurea, or pieces of them, in a weighed sample.
 *
 * <p>Council Directive 66/402/EEC, Annex II. Of hybrid rye, from memory: basic seed 1, certified
 * seed 4, and 5 if a second sample has at most 4.
 */
final class Ergot implements GateRule {
  private static final String CAUTION =
      " Ergot is poisonous: keep this seed and its screenings out of food and feed. The certification"
          + " authority decides.";

  @Override
  public Gate gate() {
    return Gate.ERGOT;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.toBeUsed(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.ERGOT_BODIES).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    CountedSamples samples = new CountedSamples(lot);
    Verdict verdict =
        samples.judge(
            Gate.ERGOT,
            "",
            "bod(y|ies) of ergot",
            limit,
            OtherSeedDetermination::getErgotBodies,
            samples.remedy("Clean the lot again and have it sampled anew."));
    return samples.none()
        ? lot.verdictsOfUnsplitOr(Gate.ERGOT, () -> verdict)
        : List.of(withCaution(verdict));
  }

  private static Verdict withCaution(Verdict verdict) {
    if (verdict instanceof Verdict.Met met) {
      return met.measured().value() == 0
          ? met
          : new Verdict.Met(
              met.gate(),
              met.aspect(),
              met.measured(),
              met.limit(),
              met.factIds(),
              met.sentence() + CAUTION);
    }
    if (verdict instanceof Verdict.NotMet notMet) {
      return new Verdict.NotMet(
          notMet.gate(),
          notMet.aspect(),
          notMet.measured(),
          notMet.limit(),
          notMet.factIds(),
          notMet.sentence() + CAUTION);
    }
    Verdict.Owed owed = (Verdict.Owed) verdict;
    return new Verdict.Owed(
        owed.gate(),
        owed.aspect(),
        owed.owed(),
        owed.limit(),
        owed.factIds(),
        owed.sentence() + CAUTION);
  }
}
