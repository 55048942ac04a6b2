package org.kornspur.api.query.proof;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.processors.stream.ChainPositions.Position;

/**
 * How far signed checkpoints cover a number of facts.
 *
 * @param partitions one entry for each partition of the log that holds some of them, in order
 * @param notChained ids of facts without a link: they came before the chain began, or this moment
 */
public record LogCoverage(List<InPartition> partitions, List<String> notChained) {

  /**
   * The facts that lie in one partition.
   *
   * @param checkpoint the first that covers all facts that are covered at all; empty where none is
   * @param covered how many facts it covers
   * @param notCovered ids of facts that are chained behind the newest checkpoint, in that order
   */
  public record InPartition(
      int partition, Optional<Checkpoint> checkpoint, int covered, List<String> notCovered) {}

  /** Whether checkpoints cover every fact. */
  public boolean whole() {
    return notChained.isEmpty()
        && partitions.stream().allMatch(partition -> partition.notCovered().isEmpty());
  }

  /** The checkpoints that cover them, by partition. */
  public List<Checkpoint> checkpoints() {
    return partitions.stream().flatMap(partition -> partition.checkpoint().stream()).toList();
  }

  /** Where checkpoints are looked up. */
  interface Checkpoints {

    /** The newest checkpoint of a partition. */
    Optional<Checkpoint> newestCheckpoint(int partition);

    /** The first checkpoint that covers a link. */
    Optional<Checkpoint> checkpointOver(int partition, long sequence);
  }

  /**
   * Looks up what covers these facts. Of a fact with several records, as after it was sent twice,
   * the last one counts, so that nothing is said to be covered that is not.
   *
   * @param positions of the records of each fact, by its id
   */
  static LogCoverage of(Map<String, List<Position>> positions, Checkpoints checkpoints) {
    List<String> notChained = new ArrayList<>();
    SortedMap<Integer, List<Placed>> byPartition = new TreeMap<>();
    positions.forEach(
        (factId, places) ->
            places.stream()
                .max(Comparator.comparingLong(Position::sequence))
                .ifPresentOrElse(
                    last ->
                        byPartition
                            .computeIfAbsent(last.partition(), unknown -> new ArrayList<>())
                            .add(new Placed(factId, last.sequence())),
                    () -> notChained.add(factId)));
    List<InPartition> partitions = new ArrayList<>();
    byPartition.forEach(
        (partition, placed) -> partitions.add(inPartition(partition, placed, checkpoints)));
    return new LogCoverage(List.copyOf(partitions), notChained.stream().sorted().toList());
  }

  private record Placed(String factId, long sequence) {}

  private static InPartition inPartition(
      int partition, List<Placed> facts, Checkpoints checkpoints) {
    long signed = checkpoints.newestCheckpoint(partition).map(Checkpoint::sequence).orElse(0L);
    List<Placed> covered = facts.stream().filter(fact -> fact.sequence() <= signed).toList();
    return new InPartition(
        partition,
        covered.stream()
            .max(Comparator.comparingLong(Placed::sequence))
            .flatMap(last -> checkpoints.checkpointOver(partition, last.sequence())),
        covered.size(),
        facts.stream()
            .filter(fact -> fact.sequence() > signed)
            .sorted(Comparator.comparingLong(Placed::sequence))
            .map(Placed::factId)
            .toList());
  }
}
