package org.kornspur.processors.advice;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.pedigree.Edge;

/**
 * What sown seed was mixed from: back from lot to lot to those of one component, with the kilograms
 * of each in what was sown.
 *
 * <p>A lot is opened once, however many ways lead to it, and gives its kilograms on when all that
 * was made of it has asked for them. So many splits and merges cost no more than their number, and
 * lots in a circle of wrong facts are never asked by all, and stay unexplained.
 */
final class MixedSeed {
  private final Map<Subject, Lot> lots = new LinkedHashMap<>();
  private final List<Lot> components = new ArrayList<>();
  private final Set<String> factIds = new TreeSet<>();
  private final Set<Subject> unexplained = new TreeSet<>();

  /** A lot with the kilograms of it in what was sown, as far as they are known. */
  static final class Lot {
    private final Dossier dossier;
    private final List<Edge> from;
    private SeedMeasures measures = SeedMeasures.none();
    private int stillToAsk;
    private double massKg;

    private Lot(Dossier dossier) {
      this.dossier = dossier;
      this.from =
          isComponent()
              ? List.of()
              : dossier.edgesIn().stream()
                  .filter(edge -> edge.parent().kind() == Subject.Kind.LOT && edge.massKg() > 0)
                  .toList();
    }

    Dossier dossier() {
      return dossier;
    }

    double massKg() {
      return massKg;
    }

    /** What it told those that were made of it or sown with it. */
    SeedMeasures measures() {
      return measures;
    }

    private boolean isComponent() {
      return dossier
          .material()
          .filter(material -> material.kind() == Material.Kind.COMPONENT)
          .isPresent();
    }
  }

  /**
   * @param crop crop that was sown
   * @param sownKg lots that were sown, with kilograms
   * @param dossiers finds a dossier, an empty one of what no fact names
   */
  MixedSeed(Dossier crop, Map<Subject, Double> sownKg, Function<Subject, Dossier> dossiers) {
    open(sownKg, dossiers);
    sownKg.keySet().forEach(lot -> measured(crop, lot));
    lots.values().stream()
        .flatMap(lot -> lot.from.stream())
        .forEach(edge -> lots.get(edge.parent()).stillToAsk++);
    sownKg.forEach((lot, massKg) -> lots.get(lot).massKg += massKg);
    Deque<Lot> asked = new ArrayDeque<>();
    lots.values().stream().filter(lot -> lot.stillToAsk == 0).forEach(asked::add);
    while (!asked.isEmpty()) {
      giveOn(asked.remove(), asked);
    }
    lots.values().stream()
        .filter(lot -> lot.stillToAsk > 0 && !lot.isComponent())
        .forEach(lot -> unexplained.add(lot.dossier.subject()));
  }

  private void open(Map<Subject, Double> sownKg, Function<Subject, Dossier> dossiers) {
    Deque<Subject> open = new ArrayDeque<>(sownKg.keySet());
    while (!open.isEmpty()) {
      Subject next = open.remove();
      if (lots.containsKey(next)) {
        continue;
      }
      Lot lot = new Lot(dossiers.apply(next));
      lots.put(next, lot);
      lot.from.forEach(edge -> open.add(edge.parent()));
    }
  }

  private void giveOn(Lot lot, Deque<Lot> asked) {
    if (lot.isComponent()) {
      components.add(lot);
    } else if (lot.from.isEmpty()) {
      unexplained.add(lot.dossier.subject());
    }
    double inKg = lot.from.stream().mapToDouble(Edge::massKg).sum();
    for (Edge edge : lot.from) {
      factIds.add(edge.factId());
      measured(lot.dossier, edge.parent());
      Lot parent = lots.get(edge.parent());
      parent.massKg += lot.massKg * edge.massKg() / inKg;
      parent.stillToAsk--;
      if (parent.stillToAsk == 0) {
        asked.add(parent);
      }
    }
  }

  private void measured(Dossier child, Subject lot) {
    child.parent(lot).ifPresent(report -> lots.get(lot).measures = report.measures().proven());
  }

  /** Every lot that was looked into. */
  Collection<Lot> lots() {
    return lots.values();
  }

  /** Lots of one component, each once. */
  List<Lot> components() {
    return components;
  }

  /** Facts that say what was made of what. */
  Set<String> factIds() {
    return factIds;
  }

  /** Lots of which no fact says what they were mixed from, or wrong facts say it in a circle. */
  Set<Subject> unexplained() {
    return unexplained;
  }
}
