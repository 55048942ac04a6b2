package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/** One gate: a pure function of a dossier and the rulebook that the production names. */
@FunctionalInterface
public interface GateRule {

  /** The gate that owes evidence where this rule breaks; {@link Gates} names each. */
  default Gate gate() {
    return Gate.ORIGIN;
  }

  /** Verdicts of this gate; empty where it does not apply to such a subject. */
  List<Verdict> judge(Dossier dossier, Rulebook rulebook);
}
