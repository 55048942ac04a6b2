package org.kornspur.processors.gates;

import java.util.List;
import java.util.stream.Stream;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A gate that owes evidence where the rulebook has no line for what it asks.
 *
 * @param rule the gate by the limits that there are
 */
record MissingLimitGate(GateRule rule) implements GateRule {

  @Override
  public Gate gate() {
    return rule.gate();
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return Stream.concat(
            rule.judge(dossier, rulebook).stream(),
            MissingLimits.owed(dossier, rulebook, rule.gate()).stream())
        .toList();
  }
}
