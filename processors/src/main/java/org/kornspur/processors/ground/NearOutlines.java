package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Which of many outlines lie within reach of each other, by the distances that isolation is judged
 * with. What is near one of them is measured when it is first asked for, and kept.
 */
public final class NearOutlines {
  private final List<Outline> outlines;
  private final double reachM;
  private final Map<String, List<Integer>> inCell = new HashMap<>();
  private final Map<Integer, List<Near>> measured = new HashMap<>();

  /**
   * An outline within reach of another.
   *
   * @param index its place in the list of all
   * @param separation from the outline that was asked for to this one
   * @param commonHa ground that both have, hectares
   */
  public record Near(int index, OutlineDistance separation, double commonHa) {}

  /**
   * Of these outlines.
   *
   * @param reachM metres, from 0 to {@link IsolationCells#MAX_REACH_M}
   * @throws InvalidOutline if a corner lies poleward of {@link IsolationCells#MAX_LATITUDE_DEG}
   */
  public NearOutlines(List<Outline> outlines, double reachM) {
    this.outlines = List.copyOf(outlines);
    this.reachM = reachM;
    for (int i = 0; i < this.outlines.size(); i++) {
      for (String cell : IsolationCells.cellsOf(this.outlines.get(i), 0)) {
        inCell.computeIfAbsent(cell, of -> new ArrayList<>()).add(i);
      }
    }
  }

  /** The others within reach of one, nearest first. */
  public List<Near> of(int index) {
    return measured.computeIfAbsent(index, this::measure);
  }

  private List<Near> measure(int index) {
    Outline here = outlines.get(index);
    Bounds reached = here.bounds().widenedBy(reachM);
    Set<Integer> others = new TreeSet<>();
    IsolationCells.cellsWithin(here, reachM, 0)
        .forEach(cell -> others.addAll(inCell.getOrDefault(cell, List.of())));
    others.remove(index);
    List<Near> near = new ArrayList<>();
    for (int other : others) {
      Outline there = outlines.get(other);
      if (OutlineOverlap.areApart(reached, there.bounds())) {
        continue;
      }
      OutlineDistance separation = OutlineDistance.between(here, there);
      if (separation.distanceM() <= reachM) {
        double commonHa = separation.distanceM() == 0 ? OutlineOverlap.hectares(here, there) : 0;
        near.add(new Near(other, separation, commonHa));
      }
    }
    near.sort(Comparator.comparingDouble(one -> one.separation().distanceM()));
    return List.copyOf(near);
  }
}
