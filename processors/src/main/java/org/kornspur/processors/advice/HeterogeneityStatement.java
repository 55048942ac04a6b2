package org.kornspur.processors.advice;

import org.kornspur.ingest.statement.Value.Amount;

/** Whether the containers of a lot differ too much. */
public sealed interface HeterogeneityStatement extends AdviceStatement {
  record Tested(
      HeterogeneityStatement test, HeterogeneityStatement range, HeterogeneityStatement conclusion)
      implements HeterogeneityStatement {}

  record Value(Amount h, Amount critical, int containers, Amount mean)
      implements HeterogeneityStatement {}

  record NoValue(Amount mean) implements HeterogeneityStatement {}

  record RangeWithin(Amount range, Amount tolerated) implements HeterogeneityStatement {}

  record RangeOver(Amount range, Amount tolerated) implements HeterogeneityStatement {}

  record NoRange() implements HeterogeneityStatement {}

  record Heterogeneous() implements HeterogeneityStatement {}

  record NotFound() implements HeterogeneityStatement {}

  record NothingToSay() implements HeterogeneityStatement {}

  /** Where both tests stand. */
  record Source() implements HeterogeneityStatement {}

  /** Share of pollinator over all containers, and whether they differ in it. */
  record BlendTested(
      Amount share,
      Amount lower,
      Amount upper,
      Amount confidence,
      int containers,
      Amount probability,
      Amount factor,
      HeterogeneityStatement conclusion)
      implements HeterogeneityStatement {}

  record BlendUneven() implements HeterogeneityStatement {}

  record BlendNotUneven() implements HeterogeneityStatement {}

  record BlendSource() implements HeterogeneityStatement {}
}
