package org.kornspur.processors.finding;

import java.util.List;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.standards.Quantity;

/** Other plants in the crop. */
public sealed interface PlantsFinding extends Finding {
  record Counted(Quantity what, int plants, Amount area) implements PlantsFinding {}

  /** Visits whose plants were gone at a later one. */
  record Gone(List<Integer> visits) implements PlantsFinding {}
}
