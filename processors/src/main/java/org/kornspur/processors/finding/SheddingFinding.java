package org.kornspur.processors.finding;

import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;

/** Female plants that shed pollen at field inspection. */
public sealed interface SheddingFinding extends Finding {
  record Counted(Optional<Integer> visit, int shedding, int receptive, Amount percent)
      implements SheddingFinding {}
}
