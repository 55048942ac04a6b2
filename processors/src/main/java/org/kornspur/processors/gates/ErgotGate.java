package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Sclerotia of Claviceps purpurea, or pieces of them, in a weighed sample.
 *
 * <p>Council Directive 66/402/EEC, Annex II, as the French transposition has it: basic seed 1,
 * certified seed of hybrids 4. That 5 pass if a second sample has at most 4 was read in the English
 * one, technical annex of December 2016, Table 9 note (a).
 */
final class ErgotGate implements GateRule {
  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.tested(dossier, rulebook, Gate.ERGOT)
        .flatMap(lot -> lot.limit(Quantity.ERGOT_BODIES).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    SampleCountRule samples = new SampleCountRule(lot);
    Verdict verdict =
        samples.judge(
            GateAspect.of(Gate.ERGOT),
            Quantity.ERGOT_BODIES,
            limit,
            lot.remedies(new Advice.CleanAndSample()));
    return samples.none()
        ? lot.verdictsOfUnsplitOr(Gate.ERGOT, () -> verdict)
        : List.of(withCaution(verdict));
  }

  private static Verdict withCaution(Verdict verdict) {
    boolean isClean = verdict instanceof Verdict.Met met && met.measured().value() == 0;
    return isClean
        ? verdict
        : verdict.with(new Advice.Poisonous().coded()).with(new Advice.AuthorityDecides().coded());
  }
}
