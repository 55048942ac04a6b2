package org.kornspur.ingest.chain;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.ingest.chain.LogFinding.Kind;
import org.kornspur.ingest.seal.Hash;

/**
 * Holds the records of a log beside the links that were made of them, and says of the first that
 * does not fit what was done to it.
 */
final class Alignment {

  private final List<LogRecord.Entry> records;
  private final List<ChainLink> links;
  private final Elsewhere elsewhere;
  private int next;

  /** Finds the link of a record in another partition. */
  interface Elsewhere {
    Optional<ChainLink> find(Hash content, int notInPartition);
  }

  /**
   * @param records from the first that the chain is about
   * @param links all links of the partition, to tell a record that was moved from one that was
   *     never chained
   */
  Alignment(List<LogRecord.Entry> records, List<ChainLink> links, Elsewhere elsewhere) {
    this.records = records;
    this.links = links;
    this.elsewhere = elsewhere;
  }

  /** How many records were found to fit. */
  int fitting() {
    return next;
  }

  /** Records that were not yet held beside a link, in order. */
  List<LogRecord.Entry> rest() {
    return records.subList(next, records.size());
  }

  /** Takes records as they are, known by another way to fit. */
  void pass(int howMany) {
    next += howMany;
  }

  /** Whether the next record is the one of this link; if so it is passed. */
  Optional<LogFinding> fit(ChainLink link) {
    if (next < records.size()) {
      LogRecord.Entry record = records.get(next);
      if (record.offset() == link.offset() && record.content().equals(link.content())) {
        next++;
        return Optional.empty();
      }
      return Optional.of(misfit(link, record));
    }
    return Optional.of(removed(link, "the end of the log"));
  }

  private LogFinding misfit(ChainLink link, LogRecord.Entry record) {
    Map<Hash, Long> surplus = new HashMap<>();
    rest().forEach(entry -> surplus.merge(entry.content(), 1L, Long::sum));
    links.stream()
        .filter(later -> later.sequence() >= link.sequence())
        .forEach(later -> surplus.merge(later.content(), -1L, Long::sum));
    boolean chainedIsMissing = surplus.getOrDefault(link.content(), 0L) < 0;
    boolean thereIsExtra = surplus.getOrDefault(record.content(), 0L) > 0;
    if (thereIsExtra) {
      Optional<ChainLink> home = elsewhere.find(record.content(), link.partition());
      if (home.isPresent()) {
        return moved(
            link,
            record,
            "the record that was chained in partition %s at offset %s"
                .formatted(home.get().partition(), home.get().offset()));
      }
    }
    if (chainedIsMissing && thereIsExtra) {
      if (record.offset() == link.offset()) {
        return altered(link, record);
      }
      return record.offset() < link.offset() ? inserted(link, record) : removed(link, at(record));
    }
    if (chainedIsMissing) {
      return removed(link, at(record));
    }
    if (thereIsExtra) {
      return inserted(link, record);
    }
    return moved(link, record, at(record));
  }

  private static LogFinding altered(ChainLink link, LogRecord.Entry record) {
    return LogFinding.at(
        link,
        Kind.RECORD_ALTERED,
        "content " + link.content(),
        "content " + record.content() + keyed(record, link));
  }

  private static String keyed(LogRecord.Entry record, ChainLink link) {
    return record.factId().equals(link.factId()) ? "" : " under the key " + record.factId();
  }

  private static LogFinding removed(ChainLink link, String found) {
    return LogFinding.at(link, Kind.RECORD_REMOVED, "content " + link.content(), found);
  }

  private static LogFinding inserted(ChainLink link, LogRecord.Entry record) {
    return new LogFinding(
        Kind.RECORD_INSERTED,
        link.partition(),
        0,
        record.offset(),
        record.factId(),
        "the record of link " + link.sequence() + " at offset " + link.offset(),
        "content " + record.content() + ", which has no link");
  }

  private static LogFinding moved(ChainLink link, LogRecord.Entry record, String found) {
    return new LogFinding(
        Kind.RECORD_REORDERED,
        link.partition(),
        link.sequence(),
        record.offset(),
        record.factId(),
        "fact " + link.factId() + " at offset " + link.offset(),
        found);
  }

  private static String at(LogRecord.Entry record) {
    return "fact " + record.factId() + " at offset " + record.offset();
  }
}
