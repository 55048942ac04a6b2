package org.kornspur.api.security.visibility;

import java.util.List;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/**
 * A pedigree that ends where a visibility ends: from what is seen one step leads out of it, and
 * none leads on from there.
 */
public record VisiblePedigree(Pedigree whole, Visibility visibility) implements Pedigree {

  /** The pedigree as a visibility has it; the whole itself where nothing is hidden. */
  public static Pedigree of(Pedigree whole, Visibility visibility) {
    return visibility.isWhole() ? whole : new VisiblePedigree(whole, visibility);
  }

  @Override
  public List<Edge> edgesInto(Subject child) {
    return visibility.sees(child) ? whole.edgesInto(child) : List.of();
  }

  @Override
  public List<Edge> edgesOutOf(Subject parent) {
    return visibility.sees(parent) ? whole.edgesOutOf(parent) : List.of();
  }
}
