package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.ContractFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Facts with numbers beyond the limits of the contract. The intake refuses such facts; one that was
 * taken in under the wider limits of an earlier release still counts, and nothing that rests on it
 * is proved. It needs no rulebook, and nothing is said where all facts lie within the limits.
 */
public final class BeyondLimits {
  private static final int MOST_NAMED = 20;

  private BeyondLimits() {}

  /** What is owed for such facts; empty where there are none. */
  public static Optional<Verdict> judge(Dossier dossier) {
    List<String> factIds = new ArrayList<>();
    List<Statement> facts = new ArrayList<>();
    for (SpecificRecord fact : dossier.counting().toList()) {
      List<Problem> problems = FieldLimits.beyond(fact);
      if (!problems.isEmpty() && factIds.size() < MOST_NAMED) {
        String factId = FactType.idOf(fact);
        factIds.add(factId);
        Problem first = problems.get(0);
        facts.add(
            new ContractFinding.FactBeyond(
                new Fact(factId), first.field(), first.value(), first.limit()));
      }
    }
    if (factIds.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        Findings.of(
                GateAspect.of(Gate.ORIGIN, "limits of the contract", new Aspect.ContractLimits()),
                List.copyOf(factIds),
                new ContractFinding.BeyondLimits(facts))
            .owed(new Evidence.Correction(Fact.each(factIds))));
  }
}
