package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Wrong facts make a crop or lot its own ancestor. All in such a circle are condemned for it. It
 * needs no rulebook, and it is seen where what the seed is cannot be told, which in a circle is
 * often so.
 */
public final class OwnAncestor {
  static final GateAspect AT = GateAspect.of(Gate.ORIGIN, "ancestors", new Aspect.Ancestors());

  private OwnAncestor() {}

  /** The verdict on a circle; empty where there is none. */
  public static Optional<Verdict> judge(Dossier dossier) {
    List<Subject> through =
        dossier.parents().stream()
            .filter(Report.FromParent::closesCircle)
            .map(Report.FromParent::parent)
            .toList();
    boolean ownParent =
        dossier.edgesIn().stream().anyMatch(edge -> edge.parent().equals(dossier.subject()));
    if (through.isEmpty() && !ownParent) {
      return Optional.empty();
    }
    return Optional.of(
        Findings.of(AT, factIds(dossier), new OriginFinding.OwnAncestor(dossier.subject(), through))
            .mustBeNone(1, "circles", new Advice.FindWrongMovement()));
  }

  /** Facts that say where a crop or lot comes from, by id. */
  static List<String> factIds(Dossier dossier) {
    return Stream.concat(
            dossier.declaredLot().stream().map(FactType::idOf),
            dossier.edgesIn().stream().map(Edge::factId))
        .distinct()
        .sorted()
        .toList();
  }
}
