package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Movement;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Records of where a lot came from that do not go together. A lot is declared only where it has no
 * history here; the share of a mixture and of an admixture is that of what was mixed, so that
 * nothing else comes into such a lot. Common sense of the pedigree; no limit of a text.
 */
final class SeveralOrigins {
  private SeveralOrigins() {}

  /** Whether a lot that comes of such a fact comes of nothing else. */
  private static boolean isAlone(FactType type) {
    return type == FactType.LOT_DECLARED || type.moves(Movement.MIXED);
  }

  static Optional<Verdict> judge(Dossier dossier) {
    if (dossier.subject().kind() != Subject.Kind.LOT) {
      return Optional.empty();
    }
    SortedMap<FactType, Set<String>> origins = new TreeMap<>();
    for (LotDeclared lot : dossier.facts(LotDeclared.class)) {
      add(origins, FactType.LOT_DECLARED, FactType.idOf(lot));
    }
    for (Edge edge : dossier.edgesIn()) {
      add(origins, edge.by(), edge.factId());
    }
    if (origins.size() < 2 || origins.keySet().stream().noneMatch(SeveralOrigins::isAlone)) {
      return Optional.empty();
    }
    List<String> factIds =
        origins.values().stream().flatMap(Set::stream).distinct().sorted().toList();
    return Optional.of(
        Findings.of(
                GateAspect.of(Gate.ORIGIN, "several origins", new Aspect.Origins()),
                factIds,
                new OriginFinding.SeveralOrigins(dossier.subject(), Fact.each(factIds)))
            .owed(new Evidence.Correction(Fact.each(factIds))));
  }

  private static void add(SortedMap<FactType, Set<String>> origins, FactType by, String factId) {
    origins.computeIfAbsent(by, type -> new TreeSet<>()).add(factId);
  }
}
