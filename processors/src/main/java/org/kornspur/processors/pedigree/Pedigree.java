package org.kornspur.processors.pedigree;

import java.util.List;
import org.kornspur.ingest.contract.Subject;

/** Where the edges of the pedigree can be looked up, one step at a time. */
public interface Pedigree {

  /** Edges by which seed came into a subject. */
  List<Edge> edgesInto(Subject child);

  /** Edges by which seed left a subject. */
  List<Edge> edgesOutOf(Subject parent);
}
