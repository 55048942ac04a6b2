package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Value.Amount;

/** What the errors of a marker method make of a count. */
public sealed interface MarkerFinding extends Finding {
  /** The share with the errors taken out, and its interval. */
  record Corrected(
      Amount share,
      Amount lower,
      Amount upper,
      Amount confidence,
      Amount falsePositive,
      Amount falseNegative)
      implements MarkerFinding {}

  record NoErrorRates() implements MarkerFinding {}

  /** The errors alone reach the limit. */
  record LimitWithinErrors(Amount falsePositive, Amount limit) implements MarkerFinding {}

  /** It calls the good bad as often as the bad. */
  record TellsNothing(Amount falsePositive, Amount falseNegative) implements MarkerFinding {}
}
