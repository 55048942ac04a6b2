package org.kornspur.api.border;

import java.util.List;
import org.kornspur.api.access.Sight;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/**
 * A pedigree that ends at the border of a sight: from what is seen one step leads out of it, and
 * none leads on from there.
 */
public record BorderedPedigree(Pedigree whole, Sight sight) implements Pedigree {

  /** The pedigree as a sight has it; the whole itself where nothing is hidden. */
  public static Pedigree of(Pedigree whole, Sight sight) {
    return sight.isWhole() ? whole : new BorderedPedigree(whole, sight);
  }

  @Override
  public List<Edge> edgesInto(Subject child) {
    return sight.sees(child) ? whole.edgesInto(child) : List.of();
  }

  @Override
  public List<Edge> edgesOutOf(Subject parent) {
    return sight.sees(parent) ? whole.edgesOutOf(parent) : List.of();
  }
}
