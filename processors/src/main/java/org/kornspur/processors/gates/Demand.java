package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;

/**
 * Something that a gate asks the rulebook for.
 *
 * @param gate the gate
 * @param anyOf quantities of which a limit for one is enough, as off-types by area or by plants
 */
record Demand(Gate gate, List<Quantity> anyOf) {
  static Demand of(Gate gate, Quantity... anyOf) {
    return new Demand(gate, List.of(anyOf));
  }
}
