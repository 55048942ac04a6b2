package org.kornspur.api.web;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.ingest.contract.Subject;

/**
 * What a list of lots or crops can show of each beside its id, from left to right. Which of them it
 * shows stands in its address.
 */
public enum ListColumn {
  STATE("state", "", StandingQuery.Order.WORST),
  RELEASE("release", "release"),
  WHY("why", ""),
  NOT_MET("notMet", "wide"),
  OWED("owed", "wide"),
  SEED("seed", "seed"),
  HOLDER("holder", "wide"),
  RULEBOOK("rulebook", "wide"),
  HELD("held", "number wide"),
  GIVEN_OUT("givenOut", "number wide"),
  LEFT("left", "number wide", StandingQuery.Order.STORE),
  JUDGED("judged", "wide", StandingQuery.Order.CHANGED);

  /** Of crops nobody knows how much there is of them, and nobody releases them. */
  private static final Set<ListColumn> OF_LOTS = EnumSet.of(RELEASE, HELD, GIVEN_OUT, LEFT);

  private static final Set<ListColumn> USUAL = EnumSet.of(STATE, RELEASE, WHY, SEED, HOLDER, LEFT);

  private final String label;
  private final String style;
  private final Optional<StandingQuery.Order> order;

  ListColumn(String label, String style) {
    this(label, style, null);
  }

  ListColumn(String label, String style, StandingQuery.Order order) {
    this.label = label;
    this.style = style;
    this.order = Optional.ofNullable(order);
  }

  /** Key of the text of its head. */
  String label() {
    return label;
  }

  /** Classes of its cells. */
  String style() {
    return style;
  }

  /** The order of a list that is sorted by it; empty where none is. */
  Optional<StandingQuery.Order> order() {
    return order;
  }

  /** Those that a list of this kind can show. */
  static Set<ListColumn> of(Subject.Kind kind) {
    Set<ListColumn> all = EnumSet.copyOf(Arrays.asList(values()));
    if (kind != Subject.Kind.LOT) {
      all.removeAll(OF_LOTS);
    }
    return all;
  }

  /** Those that a list of this kind shows: the asked ones, the usual ones where none is asked. */
  static Set<ListColumn> shown(Subject.Kind kind, Set<ListColumn> asked) {
    Set<ListColumn> shown = of(kind);
    shown.retainAll(asked.isEmpty() ? USUAL : asked);
    return shown;
  }
}
