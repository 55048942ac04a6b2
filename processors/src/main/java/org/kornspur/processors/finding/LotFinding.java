package org.kornspur.processors.finding;

import java.util.Optional;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;

/** Mass of a lot, and what it gave out. */
public sealed interface LotFinding extends Finding {
  record Weighs(Amount mass) implements LotFinding {}

  record ExcessAllowed(Statement excess) implements LotFinding {}

  /** Part of a lot is seed that failed before it was mixed in. */
  record FailedShare(Amount share) implements LotFinding {}

  record GaveOut(Amount out, Amount in, Optional<Amount> beyond) implements LotFinding {}

  record ConditioningGave(Fact conditioning, Amount out, Amount in, Optional<Amount> beyond)
      implements LotFinding {}
}
