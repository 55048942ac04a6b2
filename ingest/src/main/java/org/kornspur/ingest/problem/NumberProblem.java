package org.kornspur.ingest.problem;

import org.kornspur.ingest.statement.Value.Amount;

/** What a number must be by the contract, or by another number of the same fact. */
public sealed interface NumberProblem extends IntakeReason {
  record OutOfRange(Amount least, Amount most, Remedy remedy) implements NumberProblem {}

  record NeitherZeroNorInRange(Amount smallest, Amount most, Remedy remedy)
      implements NumberProblem {}

  /** The tolerance is larger than the share that it is about. */
  record ToleranceAboveShare(Amount share) implements NumberProblem {}

  record SampleAboveLot(Amount lot) implements NumberProblem {}

  record MoreOutThanIn(Amount in, Amount tolerance) implements NumberProblem {}

  record KernelWeight(
      Amount least, Amount most, int kernels, Amount leastOfThousand, Amount mostOfThousand)
      implements NumberProblem {}
}
