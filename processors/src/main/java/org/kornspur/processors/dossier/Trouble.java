package org.kornspur.processors.dossier;

import java.util.List;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.verdict.Gate;

/**
 * A failing or an open question of an ancestor that its descendants inherit.
 *
 * @param gate gate that the ancestor failed, or owes evidence for
 * @param aspect aspect of that gate
 * @param weight whether it condemns or is only owed
 * @param origin the ancestor
 * @param path from the origin down to the subject that passes it on, both included
 * @param factIds facts that it rests on
 * @param sentence what is wrong with the ancestor, for a person
 */
public record Trouble(
    Gate gate,
    String aspect,
    Weight weight,
    Subject origin,
    List<Subject> path,
    List<String> factIds,
    String sentence) {

  /** Whether descendants are not fit, or wait. */
  public enum Weight {
    CONDEMNS,
    OWED
  }
}
