package org.kornspur.api.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/**
 * As much of a pedigree as a person can take in: the nearest back and forward, and all that trouble
 * of the lot passes through, however far.
 *
 * @param nodes what is drawn, nearest first
 * @param links seed that moved between them, summed for each pair
 * @param hiddenBefore how many parents of a drawn one are left out
 * @param hiddenAfter how many children of a drawn one are left out
 * @param all how many there are, drawn or not
 */
record PedigreeCut(
    Set<Subject> nodes,
    List<Link> links,
    Map<Subject, Integer> hiddenBefore,
    Map<Subject, Integer> hiddenAfter,
    int all) {

  /** Most that are drawn on each side for being near. */
  static final int NEAR = 40;

  /**
   * Seed that moved from one to another, in one or several movements.
   *
   * @param troubled whether trouble that condemns passes here
   */
  record Link(Subject parent, Subject child, double massKg, boolean troubled) {}

  /**
   * @param back walk back from the lot
   * @param forward walk forward from the same
   * @param standings the standing of each, where it has one
   */
  static PedigreeCut of(
      Trace back, Trace forward, Function<Subject, Optional<LotStanding>> standings) {
    Set<Subject> nodes = new LinkedHashSet<>();
    Stream.concat(near(back), near(forward)).forEach(nodes::add);
    standings
        .apply(back.start())
        .ifPresent(
            standing ->
                standing.getInherited().stream()
                    .flatMap(trouble -> trouble.getPath().stream())
                    .map(Subject::parse)
                    .filter(back.steps()::containsKey)
                    .forEach(nodes::add));
    List<Edge> edges =
        Stream.concat(back.edges().stream(), forward.edges().stream()).distinct().toList();
    Set<Subject> all = new HashSet<>(back.steps().keySet());
    all.addAll(forward.steps().keySet());
    return new PedigreeCut(
        nodes,
        links(edges, nodes, standings),
        hidden(edges, nodes, Edge::child, Edge::parent),
        hidden(edges, nodes, Edge::parent, Edge::child),
        all.size());
  }

  private static Stream<Subject> near(Trace trace) {
    return trace.steps().keySet().stream().limit(NEAR);
  }

  private static List<Link> links(
      List<Edge> edges, Set<Subject> nodes, Function<Subject, Optional<LotStanding>> standings) {
    record Pair(Subject parent, Subject child) {}
    Map<Pair, Double> massKg = new LinkedHashMap<>();
    edges.stream()
        .filter(edge -> nodes.contains(edge.parent()) && nodes.contains(edge.child()))
        .forEach(
            edge ->
                massKg.merge(new Pair(edge.parent(), edge.child()), edge.massKg(), Double::sum));
    Map<Subject, Set<Subject>> carriers = new HashMap<>();
    List<Link> links = new ArrayList<>();
    massKg.forEach(
        (pair, kg) ->
            links.add(
                new Link(
                    pair.parent(),
                    pair.child(),
                    kg,
                    pair.child().kind() == Subject.Kind.ENTERPRISE
                        ? isNotFit(pair.parent(), standings)
                        : carriers
                            .computeIfAbsent(pair.child(), child -> carriersTo(child, standings))
                            .contains(pair.parent()))));
    links.sort(Comparator.comparing(Link::parent).thenComparing(Link::child));
    return links;
  }

  /** Customers have no standing: what reaches them is as good as the lot that it is of. */
  private static boolean isNotFit(Subject lot, Function<Subject, Optional<LotStanding>> standings) {
    return standings
        .apply(lot)
        .filter(standing -> standing.getState() == StandingState.NOT_FIT)
        .isPresent();
  }

  /** Parents from which trouble that condemns came down. */
  private static Set<Subject> carriersTo(
      Subject child, Function<Subject, Optional<LotStanding>> standings) {
    return standings.apply(child).map(LotStanding::getInherited).orElse(List.of()).stream()
        .filter(trouble -> StandingRecords.weighs(trouble, InheritedFinding.Weight.CONDEMNS))
        .map(InheritedTrouble::getPath)
        .filter(path -> !path.isEmpty())
        .map(path -> Subject.parse(path.get(path.size() - 1)))
        .collect(Collectors.toSet());
  }

  private static Map<Subject, Integer> hidden(
      List<Edge> edges,
      Set<Subject> nodes,
      Function<Edge, Subject> shown,
      Function<Edge, Subject> beyond) {
    return edges.stream()
        .filter(edge -> nodes.contains(shown.apply(edge)) && !nodes.contains(beyond.apply(edge)))
        .collect(
            Collectors.groupingBy(
                shown,
                Collectors.collectingAndThen(
                    Collectors.mapping(beyond, Collectors.toSet()), Set::size)));
  }
}
