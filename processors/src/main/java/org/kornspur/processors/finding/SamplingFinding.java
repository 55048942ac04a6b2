package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** How the sample of a lot was drawn. */
public sealed interface SamplingFinding extends Finding {
  record Drawn(int primarySamples, int needed, Amount lot, Statement source, Amount submitted)
      implements SamplingFinding {}

  record TooFewPrimarySamples() implements SamplingFinding {}

  record TooLight() implements SamplingFinding {}
}
