package org.kornspur.ingest.chain;

import java.util.List;

/**
 * All that is kept of one partition, each list in the order of its topic.
 *
 * <p>The three are read in this order, checkpoints, links, records, so that a log that grows while
 * it is read never seems to lack what came in between.
 */
public record PartitionLog(
    int partition,
    List<LogRecord.Entry> records,
    List<ChainLink> links,
    List<Checkpoint> checkpoints) {

  public PartitionLog {
    records = List.copyOf(records);
    links = List.copyOf(links);
    checkpoints = List.copyOf(checkpoints);
  }
}
