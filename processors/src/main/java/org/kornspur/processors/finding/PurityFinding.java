package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Value.Amount;

/** What a test of analytical purity shows. */
public sealed interface PurityFinding extends Finding {
  record PureSeed(Amount percent, Amount pureSeed, Amount sample) implements PurityFinding {}

  /**
   * Other seeds weighed and other seeds counted in one sample, which no chance brings together.
   *
   * @param weighed grams in the purity test
   * @param seeds seeds in the count
   */
  record WeighedAgainstCounted(Amount weighed, Amount of, int seeds, Amount in)
      implements PurityFinding {}
}
