package org.kornspur.processors.finding;

import java.util.List;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;

/** How the sample of a lot was drawn. */
public sealed interface SamplingFinding extends Finding {
  record Drawn(int primarySamples, int needed, Amount lot, Statement source, Amount submitted)
      implements SamplingFinding {}

  /** The sample was drawn from less than the lot is. */
  record OfPartOnly(Amount sampled, Amount lot) implements SamplingFinding {}

  /** Tests of samples that were not drawn, or do not stand for the lot. */
  record TestsOfOtherSamples(List<Fact> tests) implements SamplingFinding {}

  record TooFewPrimarySamples() implements SamplingFinding {}

  record TooLight() implements SamplingFinding {}
}
