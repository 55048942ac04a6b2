package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.standards.Quantity;

/** Mass of a lot, and what it gave out. */
public sealed interface LotFinding extends Finding {
  record Weighs(Amount mass) implements LotFinding {}

  record ExcessAllowed(Statement excess) implements LotFinding {}

  /** Part of a lot is seed that failed before it was mixed in. */
  record FailedShare(Amount share) implements LotFinding {}

  /** A part of the same seed failed, or is beyond a limit and not settled. */
  record PartFailed(Subject part, List<Fact> facts) implements LotFinding {}

  record GaveOut(Amount out, Amount in, Optional<Amount> beyond) implements LotFinding {}

  /** What treated seed weighs more than the seed that went in. */
  record Dressing(Amount mass) implements LotFinding {}

  /**
   * Over all its movements seed came to weigh more than scales and a dressing explain.
   *
   * @param dressed taken as dressings, of which so much is allowed in all
   */
  record GainedInAll(Amount beyond, Amount dressed, Amount allowed) implements LotFinding {}

  /** Less came out of a conditioning than is usual, as screenings or as nothing on record. */
  record ConditioningLost(Quantity what, Amount lost, Statement usual) implements LotFinding {}

  record ConditioningGave(Fact conditioning, Amount out, Amount in, Optional<Amount> beyond)
      implements LotFinding {}
}
