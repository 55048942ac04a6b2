package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Verdict;

/**
 * A gate for which a result proves something good only where a declared laboratory made it, of a
 * sample that stands for the lot. Other results count against the seed and never for it: the gate
 * is asked once with all results and once with those that prove, and the worse of both stands.
 *
 * @param rule the gate by the results that it is given
 * @param of kind of results that it rests on
 */
record ProvingResults(GateRule rule, FactType of) implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    List<Verdict> byAll = rule.judge(dossier, rulebook);
    List<UnprovenResult> unproven =
        byAll.isEmpty() ? List.of() : UnprovenResult.in(dossier, rulebook, of);
    if (unproven.isEmpty()) {
      return byAll;
    }
    Set<String> left = unproven.stream().map(UnprovenResult::factId).collect(Collectors.toSet());
    Map<String, Verdict> proven = new LinkedHashMap<>();
    rule.judge(dossier.of(entry -> !left.contains(entry.header().getFactId())), rulebook)
        .forEach(verdict -> proven.put(verdict.aspect(), verdict));
    List<Verdict> verdicts = new ArrayList<>();
    for (Verdict verdict : byAll) {
      verdicts.add(worse(verdict, Optional.ofNullable(proven.remove(verdict.aspect())), unproven));
    }
    proven.values().stream()
        .filter(verdict -> !(verdict instanceof Verdict.Met))
        .map(verdict -> told(verdict, unproven))
        .forEach(verdicts::add);
    return verdicts;
  }

  private static Verdict worse(
      Verdict all, Optional<Verdict> proven, List<UnprovenResult> unproven) {
    if (proven.filter(Verdict.NotMet.class::isInstance).isPresent()) {
      return told(proven.get(), unproven);
    }
    if (!(all instanceof Verdict.Met met)) {
      return told(all, unproven);
    }
    if (proven.isPresent()) {
      return told(proven.get(), unproven);
    }
    List<UnprovenResult> needed =
        unproven.stream().filter(result -> met.factIds().contains(result.factId())).toList();
    return needed.isEmpty() ? met : owed(met, needed);
  }

  /** With what proves nothing, and where evidence is owed, what would make it prove. */
  private static Verdict told(Verdict verdict, List<UnprovenResult> unproven) {
    List<Coded> findings = with(verdict.findings(), unproven, UnprovenResult::finding);
    if (!(verdict instanceof Verdict.Owed owed)) {
      return verdict.withFindings(findings);
    }
    return new Verdict.Owed(
        owed.gate(),
        owed.aspect(),
        owed.about(),
        with(owed.evidence(), unproven, UnprovenResult::evidence),
        owed.limit(),
        ids(owed.factIds(), unproven),
        findings,
        owed.advice());
  }

  private static Verdict owed(Verdict.Met met, List<UnprovenResult> unproven) {
    return met.owing(
        with(List.of(), unproven, UnprovenResult::evidence),
        met.limit(),
        with(met.findings(), unproven, UnprovenResult::finding));
  }

  private static List<Coded> with(
      List<Coded> said,
      List<UnprovenResult> unproven,
      Function<UnprovenResult, Statement> further) {
    return Stream.concat(said.stream(), unproven.stream().map(further).map(Statement::coded))
        .distinct()
        .toList();
  }

  private static List<String> ids(List<String> factIds, List<UnprovenResult> unproven) {
    return Stream.concat(factIds.stream(), unproven.stream().map(UnprovenResult::factId))
        .distinct()
        .toList();
  }
}
