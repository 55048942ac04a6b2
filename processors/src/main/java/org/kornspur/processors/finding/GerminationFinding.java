package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value;
import org.kornspur.ingest.statement.Value.Amount;

/** What germination tests show. */
public sealed interface GerminationFinding extends Finding {
  record Found(Amount percent, int normal, int seeds) implements GerminationFinding {}

  record MeanOfTwo(Amount percent, Amount first, Amount second) implements GerminationFinding {}

  /** Three tests and more, pooled unrounded and rounded once. */
  record MeanOfTests(Amount percent, List<Amount> tests) implements GerminationFinding {}

  /** Last day on which the newest test is good. */
  record CountsUntil(LocalDate until) implements GerminationFinding {
    private static final String CODE = Coded.codeOf(CountsUntil.class);

    /** The day that one of these findings says; empty where none does. */
    public static Optional<LocalDate> in(List<Coded> findings) {
      return findings.stream()
          .filter(finding -> finding.code().equals(CODE))
          .flatMap(finding -> finding.argument("until").stream())
          .filter(Value.Day.class::isInstance)
          .map(day -> ((Value.Day) day).day())
          .findFirst();
    }
  }

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
