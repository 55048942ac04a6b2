package org.kornspur.processors.dossier;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.verdict.Gate;

/**
 * A failing or an open question of an ancestor that its descendants inherit.
 *
 * @param gate gate that the ancestor failed, or owes evidence for
 * @param aspect key of that gate's aspect
 * @param about the same as it is shown; empty where the gate has one verdict
 * @param weight whether it condemns or is only owed
 * @param origin the ancestor
 * @param path from the origin down to the subject that passes it on, both included
 * @param factIds facts that it rests on
 * @param findings what is wrong with the ancestor, the most telling first
 */
public record InheritedFinding(
    Gate gate,
    String aspect,
    Optional<Coded> about,
    Weight weight,
    Subject origin,
    List<Subject> path,
    List<String> factIds,
    List<Coded> findings) {

  /** The same trouble with a longer path. */
  public InheritedFinding along(List<Subject> longer) {
    return new InheritedFinding(
        gate, aspect, about, weight, origin, List.copyOf(longer), factIds, findings);
  }

  /** The same trouble with other findings. */
  public InheritedFinding with(List<Coded> others) {
    return new InheritedFinding(
        gate, aspect, about, weight, origin, path, factIds, List.copyOf(others));
  }

  /** The same where it only waits for evidence. */
  public InheritedFinding owed() {
    return new InheritedFinding(gate, aspect, about, Weight.OWED, origin, path, factIds, findings);
  }

  /** Whether descendants are not fit, or wait. */
  public enum Weight {
    CONDEMNS,
    OWED
  }
}
