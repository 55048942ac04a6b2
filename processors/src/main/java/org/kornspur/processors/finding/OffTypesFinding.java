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
}
