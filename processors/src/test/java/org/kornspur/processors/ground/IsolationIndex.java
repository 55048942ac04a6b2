package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.index.strtree.STRtree;

/**
 * Many outlines, by crop year, in a sort-tile-recursive tree of their boxes: to find those near a
 * new one, only those whose box lies within reach are measured. Immutable and safe for many
 * threads; a changed set of fields makes a new index.
 */
public final class IsolationIndex {
  /**
   * An outline in the index.
   *
   * @param id what it is the outline of, in text form
   * @param cropYear year of harvest, or in which a source flowers
   */
  public record Entry(String id, int cropYear, Outline outline) {}

  /** An entry near the outline asked for; the separation has that outline first. */
  public record Near(Entry entry, OutlineDistance separation) {}

  /**
   * What a search found.
   *
   * @param near those within reach, the nearest first, then by id
   * @param measured how many outlines had to be measured to find them
   */
  public record Found(List<Near> near, int measured) {}

  private static final Comparator<Near> NEAREST_FIRST =
      Comparator.comparingDouble((Near near) -> near.separation().distanceM())
          .thenComparing(near -> near.entry().id());

  private final Map<Integer, STRtree> treeOfYear = new TreeMap<>();

  private IsolationIndex() {}

  /**
   * @throws InvalidOutline if an outline lies poleward of {@link IsolationCells#MAX_LATITUDE_DEG}
   */
  public static IsolationIndex of(Collection<Entry> entries) {
    IsolationIndex index = new IsolationIndex();
    for (Entry entry : entries) {
      IsolationCells.checkLatitude(entry.outline());
      index
          .treeOfYear
          .computeIfAbsent(entry.cropYear(), year -> new STRtree())
          .insert(envelope(entry.outline().bounds(), 0), entry);
    }
    index.treeOfYear.values().forEach(STRtree::build);
    return index;
  }

  /**
   * Every entry of the year within reach of the outline.
   *
   * @param reachM metres, from 0 to {@link IsolationCells#MAX_REACH_M}, inclusive
   * @throws InvalidOutline if the outline lies poleward of {@link IsolationCells#MAX_LATITUDE_DEG}
   * @throws IllegalArgumentException if the reach is out of its limits
   */
  public Found near(Outline outline, double reachM, int cropYear) {
    IsolationCells.checkLatitude(outline);
    IsolationCells.checkReach(reachM);
    STRtree tree = treeOfYear.get(cropYear);
    if (tree == null) {
      return new Found(List.of(), 0);
    }
    Set<Entry> candidates = candidates(tree, outline.bounds().widenedBy(reachM));
    List<Near> near = new ArrayList<>();
    for (Entry candidate : candidates) {
      OutlineDistance separation = OutlineDistance.between(outline, candidate.outline());
      if (separation.distanceM() <= reachM) {
        near.add(new Near(candidate, separation));
      }
    }
    near.sort(NEAREST_FIRST);
    return new Found(List.copyOf(near), candidates.size());
  }

  /** Boxes start in [-180, 180) and may reach past 180, so the neighbouring turns are asked too. */
  private static Set<Entry> candidates(STRtree tree, Bounds wanted) {
    Set<Entry> candidates = new LinkedHashSet<>();
    for (int turn : new int[] {-360, 0, 360}) {
      tree.query(envelope(wanted, turn), item -> candidates.add((Entry) item));
    }
    return candidates;
  }

  private static Envelope envelope(Bounds bounds, double turnDeg) {
    return new Envelope(
        bounds.west() + turnDeg, bounds.east() + turnDeg, bounds.south(), bounds.north());
  }
}
