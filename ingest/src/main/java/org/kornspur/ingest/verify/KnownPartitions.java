package org.kornspur.ingest.verify;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.PartitionLog.Part;
import org.kornspur.ingest.publish.FactPublisher;

/**
 * The partitions that a site must have. All its topics have the same number, so any of them tells
 * of a partition that another one lacks.
 *
 * @param there partitions that are there, by topic
 * @param declared partitions that the broker's own record of its topics names
 */
record KnownPartitions(Map<String, Set<Integer>> there, Map<String, Set<Integer>> declared) {

  /** What the names of all topics of a site begin with. */
  static final String PREFIX = "kornspur.";

  private static final Map<Part, String> TOPICS =
      new EnumMap<>(
          Map.of(
              Part.RECORDS, FactPublisher.FACTS_TOPIC,
              Part.LINKS, ChainLink.TOPIC,
              Part.CHECKPOINTS, Checkpoint.TOPIC));

  /** Whether anything is there of facts, links or checkpoints. */
  boolean areAny() {
    return TOPICS.values().stream().anyMatch(there::containsKey);
  }

  /** From 0 on, without gaps. */
  List<Integer> all() {
    int last =
        Stream.of(there, declared)
            .flatMap(topics -> topics.entrySet().stream())
            .filter(topic -> topic.getKey().startsWith(PREFIX))
            .flatMap(topic -> topic.getValue().stream())
            .mapToInt(Integer::intValue)
            .max()
            .orElse(-1);
    return IntStream.rangeClosed(0, last).boxed().toList();
  }

  /**
   * What a partition lacks. A site that has no chain anywhere lacks none: it is from before there
   * was one.
   */
  Set<Part> missing(int partition) {
    boolean hasChain =
        Stream.of(there, declared)
            .anyMatch(
                topics ->
                    topics.containsKey(ChainLink.TOPIC) || topics.containsKey(Checkpoint.TOPIC));
    Set<Part> missing = EnumSet.noneOf(Part.class);
    TOPICS.forEach(
        (part, topic) -> {
          boolean isThere = there.containsKey(topic) && there.get(topic).contains(partition);
          if (!isThere && (part == Part.RECORDS || hasChain)) {
            missing.add(part);
          }
        });
    return missing;
  }
}
