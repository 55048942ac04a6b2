package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.List;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** What germination tests show. */
public sealed interface GerminationFinding extends Finding {
  record Found(Amount percent, int normal, int seeds) implements GerminationFinding {}

  record MeanOfTwo(Amount percent, Amount first, Amount second) implements GerminationFinding {}

  /** Three tests and more, pooled unrounded and rounded once. */
  record MeanOfTests(Amount percent, List<Amount> tests) implements GerminationFinding {}

  /** Last day on which the newest test is good. */
  record CountsUntil(LocalDate until) implements GerminationFinding {}

  record UsedAfter(LocalDate used, LocalDate until) implements GerminationFinding {}

  /** The label states the germination that was found in place of the least. */
  record StatedOnLabel(Amount stated, Statement least) implements GerminationFinding {}

  record LabelPromisesMore(Amount stated) implements GerminationFinding {}

  record TooFewSeeds(int seeds) implements GerminationFinding {}

  record ReplicatesApart(int range, int tolerated, Statement source)
      implements GerminationFinding {}

  record ReplicatesNotComparable(Statement reason) implements GerminationFinding {}

  record TestsApart(Amount first, Amount difference, Amount tolerated, Statement source)
      implements GerminationFinding {}
}
