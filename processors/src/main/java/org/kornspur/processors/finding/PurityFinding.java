package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Value.Amount;

/** What a test of analytical purity shows. */
public sealed interface PurityFinding extends Finding {
  record PureSeed(Amount percent, Amount pureSeed, Amount sample) implements PurityFinding {}
}
