package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
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

  /** Drawn by somebody who was not declared for sampling on that day. */
  record SamplerNotDeclared(Fact fact, Subject sampler, LocalDate on) implements SamplingFinding {}

  /** What the record says of the sampler is no id, so that nobody can be declared under it. */
  record NoSampler(Fact fact) implements SamplingFinding {}

  /** The lot was treated, and not with all the seed that was sampled before. */
  record TreatedInPortions(Subject untreated, Amount treated, Optional<Amount> of)
      implements SamplingFinding {}
}
