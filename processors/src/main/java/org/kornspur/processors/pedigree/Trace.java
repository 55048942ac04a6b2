package org.kornspur.processors.pedigree;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.kornspur.ingest.contract.Subject;

/**
 * A walk from one subject back to all that it came from, or forward to all that it went into.
 *
 * @param start where the walk began
 * @param direction back or forward
 * @param steps every subject reached and in how few steps, nearest first; the start stands first
 *     with 0
 * @param edges every edge between them, nearest first
 * @param complete false where the walk ended at the bound on subjects before it had seen all
 */
public record Trace(
    Subject start,
    Direction direction,
    Map<Subject, Integer> steps,
    List<Edge> edges,
    boolean complete) {

  /** Which way the walk goes. */
  public enum Direction {
    BACK,
    FORWARD
  }

  /**
   * Walks breadth first. A circle is walked once.
   *
   * @param pedigree where edges are looked up
   * @param start where to begin
   * @param direction which way
   * @param mostSubjects bound on the number of subjects
   */
  public static Trace walk(
      Pedigree pedigree, Subject start, Direction direction, int mostSubjects) {
    Function<Subject, List<Edge>> next =
        switch (direction) {
          case BACK -> pedigree::edgesInto;
          case FORWARD -> pedigree::edgesOutOf;
        };
    Map<Subject, Integer> steps = new LinkedHashMap<>();
    List<Edge> edges = new ArrayList<>();
    Deque<Subject> open = new ArrayDeque<>(List.of(start));
    steps.put(start, 0);
    boolean complete = true;
    while (!open.isEmpty()) {
      Subject here = open.remove();
      for (Edge edge : inOrder(next.apply(here))) {
        Subject there = direction == Direction.BACK ? edge.parent() : edge.child();
        if (!steps.containsKey(there)) {
          if (steps.size() >= mostSubjects) {
            complete = false;
            continue;
          }
          steps.put(there, steps.get(here) + 1);
          open.add(there);
        }
        edges.add(edge);
      }
    }
    return new Trace(start, direction, steps, edges, complete);
  }

  private static List<Edge> inOrder(List<Edge> edges) {
    if (edges.size() < 2) {
      return edges;
    }
    return edges.stream()
        .sorted(
            Comparator.comparing(Edge::happenedAt)
                .thenComparing(Edge::factId)
                .thenComparing(Edge::parent)
                .thenComparing(Edge::child))
        .toList();
  }
}
