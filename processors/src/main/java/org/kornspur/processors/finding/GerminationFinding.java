package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** What germination tests show. */
public sealed interface GerminationFinding extends Finding {
  record Found(Amount percent, int normal, int seeds) implements GerminationFinding {}

  record MeanOfTwo(Amount percent, Amount first, Amount second) implements GerminationFinding {}

  record TooFewSeeds(int seeds) implements GerminationFinding {}

  record ReplicatesApart(int range, int tolerated, Statement source)
      implements GerminationFinding {}

  record ReplicatesNotComparable(Statement reason) implements GerminationFinding {}

  record TestsApart(Amount first, Amount difference, Amount tolerated, Statement source)
      implements GerminationFinding {}
}
