package org.kornspur.ingest.chain;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * All that is kept of one partition, each list in the order of its topic.
 *
 * <p>The three are read in this order, checkpoints, links, records, so that a log that grows while
 * it is read never seems to lack what came in between.
 *
 * @param missing what is not there at all, though it must once have been
 */
public record PartitionLog(
    int partition,
    List<LogRecord.Entry> records,
    List<ChainLink> links,
    List<Checkpoint> checkpoints,
    Set<Part> missing) {

  /** What is kept of a partition, each in a topic of its own. */
  public enum Part {
    RECORDS,
    LINKS,
    CHECKPOINTS
  }

  public PartitionLog {
    records = List.copyOf(records);
    links = List.copyOf(links);
    checkpoints = List.copyOf(checkpoints);
    missing = Set.copyOf(missing);
  }

  /** A partition of which nothing is there. */
  static PartitionLog missing(int partition) {
    return new PartitionLog(partition, List.of(), List.of(), List.of(), EnumSet.allOf(Part.class));
  }
}
