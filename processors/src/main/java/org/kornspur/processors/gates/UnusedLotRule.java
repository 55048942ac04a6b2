package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Verdict;

/**
 * Tests of a lot that is not to be used itself: what goes along with its seed is told, and nothing
 * is asked of it. What was not tested is owed by the lots that are used.
 *
 * @param rule the gate as it judges seed that is to be used
 */
record UnusedLotRule(GateRule rule) implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    List<Verdict> verdicts = rule.judge(dossier, rulebook);
    return SeedLot.toBeUsed(dossier, rulebook).isPresent()
        ? verdicts
        : verdicts.stream().filter(SameSeed::goesAlong).toList();
  }
}
