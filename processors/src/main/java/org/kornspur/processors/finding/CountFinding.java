package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.standards.Quantity;

/** Seeds and bodies counted in a weighed sample. */
public sealed interface CountFinding extends Finding {
  record InSample(Quantity what, int count, Amount sample) implements CountFinding {}

  record InProportion(Amount count, Amount least) implements CountFinding {}

  record InSecondSample(Quantity what, Amount count) implements CountFinding {}

  record SecondSampleAllowed(Amount atMost) implements CountFinding {}

  /** Seeds that another kind's rule excuses; they are no impurity in the sum either. */
  record Excused(Amount seeds) implements CountFinding {}

  /** The excuse itself could not be read in a text. */
  record SecondSampleFromMemory() implements CountFinding {}

  record SampleTooLight(Amount sample, Statement least) implements CountFinding {}
}
