package org.kornspur.processors.advice;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/**
 * Lots that hold the harvest of a crop: raw, conditioned, divided or put together, up to the next
 * sowing.
 *
 * @param ofThisCropAlone lots whose seed all grew in this crop
 * @param mixed lots that hold seed from elsewhere too, so that a result on them says nothing of
 *     this crop alone
 */
public record HarvestedLots(SortedSet<Subject> ofThisCropAlone, SortedSet<Subject> mixed) {

  /** Walks down from a crop, and from each lot back up. */
  public static HarvestedLots of(Pedigree pedigree, Subject crop) {
    SortedSet<Subject> alone = new TreeSet<>();
    SortedSet<Subject> mixed = new TreeSet<>();
    Deque<Subject> open = new ArrayDeque<>(List.of(crop));
    Set<Subject> seen = new HashSet<>();
    while (!open.isEmpty()) {
      for (Edge edge : pedigree.edgesOutOf(open.remove())) {
        Subject lot = edge.child();
        if (lot.kind() == Subject.Kind.LOT && seen.add(lot)) {
          open.add(lot);
          (originsOf(pedigree, lot).equals(Set.of(crop)) ? alone : mixed).add(lot);
        }
      }
    }
    return new HarvestedLots(alone, mixed);
  }

  /** Crops that the seed of a lot grew in, and lots that nobody knows an origin of. */
  private static Set<Subject> originsOf(Pedigree pedigree, Subject lot) {
    Set<Subject> origins = new HashSet<>();
    Set<Subject> seen = new HashSet<>(Set.of(lot));
    Deque<Subject> open = new ArrayDeque<>(List.of(lot));
    while (!open.isEmpty()) {
      Subject here = open.remove();
      List<Edge> in = pedigree.edgesInto(here);
      if (in.isEmpty()) {
        origins.add(here);
      }
      for (Edge edge : in) {
        if (edge.parent().kind() != Subject.Kind.LOT) {
          origins.add(edge.parent());
        } else if (seen.add(edge.parent())) {
          open.add(edge.parent());
        }
      }
    }
    return origins;
  }
}
