package org.kornspur.processors.statistics;

import java.util.List;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** Why no published tolerance holds for a comparison, and with it what to test instead. */
public sealed interface NoTable extends Statement {

  /** Replicates that do not combine to hundreds. */
  record UnevenReplicates(List<Integer> seeds) implements NoTable {}

  /** Ranges are published for four and for two replicates of 100. */
  record NumberOfReplicates(int replicates) implements NoTable {}

  /**
   * @param mean whole percent
   * @param range percentage points between the replicates
   */
  record NoRangeForMean(int replicates, int mean, int range) implements NoTable {}

  /** Tests of other sizes than the table holds for. */
  record TestsOfOtherSize(int first, int second, int each) implements NoTable {}

  record TooFewSeeds(int seeds, int least) implements NoTable {}

  record NumberOfContainers(int containers) implements NoTable {}

  record NoRow(String table, Amount at, Amount difference) implements NoTable {}
}
