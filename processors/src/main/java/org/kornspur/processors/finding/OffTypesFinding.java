package org.kornspur.processors.finding;

import java.util.Optional;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.statement.Value.Amount;

/** Plants not true to type at field inspection. */
public sealed interface OffTypesFinding extends Finding {
  record ByArea(InspectedPart part, Optional<Integer> visit, int offTypes, Amount area)
      implements OffTypesFinding {}

  record ByPlants(InspectedPart part, Optional<Integer> visit, int offTypes, int plants)
      implements OffTypesFinding {}

  record FurtherArea(Amount area, Amount confidence) implements OffTypesFinding {}

  record FurtherPlants(int plants, Amount confidence) implements OffTypesFinding {}

  /** They were gone at a later visit, before they could shed. */
  record GoneBeforeFlowering(int atVisit) implements OffTypesFinding {}

  /** They were gone at a later visit, and count by the days on which they could shed. */
  record GoneInFlower(int atVisit, int days, int daysOfFlowering) implements OffTypesFinding {}

  /** They were gone at a later visit, but on how many days they shed is not known. */
  record DaysOfSheddingUnknown(int atVisit) implements OffTypesFinding {}

  /** Counts lie further apart than chance makes them, and the interval is wider for it. */
  record Clustered(Amount factor) implements OffTypesFinding {}

  record PollenParentLeftOut() implements OffTypesFinding {}
}
