package org.kornspur.processors.gates;

import java.util.List;
import java.util.function.Predicate;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;

/**
 * A limit that a gate needs from the rulebook.
 *
 * @param gate the gate
 * @param anyOf quantities of which a limit for one is enough, as off-types by area or by plants
 * @param besides of a least sample: what is counted in it. It is asked for where one of them is
 *     limited. Empty for what is asked for in any case
 */
record RequiredLimit(Gate gate, List<Quantity> anyOf, List<Quantity> besides) {
  static RequiredLimit of(Gate gate, Quantity... anyOf) {
    return new RequiredLimit(gate, List.of(anyOf), List.of());
  }

  RequiredLimit beside(Quantity... counted) {
    return beside(List.of(counted));
  }

  RequiredLimit beside(List<Quantity> counted) {
    return new RequiredLimit(gate, anyOf, counted);
  }

  boolean isAsked(Predicate<Quantity> isLimited) {
    return besides.isEmpty() || besides.stream().anyMatch(isLimited);
  }
}
