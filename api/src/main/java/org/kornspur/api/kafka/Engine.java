package org.kornspur.api.kafka;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.stream.ChainPositions;
import org.kornspur.processors.stream.RegisterEntry;

/**
 * The running processors, as the API sees them. Whatever instance holds a key, it is asked here;
 * the caller never needs to know. Every method may throw {@link NotReady}.
 */
public interface Engine {

  /** Whether every question can be answered now. */
  boolean isReady();

  /** What the engine is doing, for a person: starting, restoring, running. */
  String condition();

  /** Whether starting or running failed for good, so that only a restart helps. */
  boolean hasFailed();

  /** Reads and writes records of the topics. */
  WireFormat wire();

  /** Sends facts to the facts topic and waits until the broker has them all. */
  void publish(List<? extends SpecificRecord> facts);

  /** Sends a fact to the facts topic and waits until the broker has it. */
  default void publish(SpecificRecord fact) {
    publish(List.of(fact));
  }

  /** Sends a refused input, or a change of its state, to the quarantine topic. */
  void quarantine(QuarantineEntry entry);

  /** Keeps the names of a person who signs, and waits until the broker has them. */
  void keep(PersonName person);

  /** Forgets the names of a person; what the person signed stays. */
  void forget(String personId);

  /** What is known of a fact id: its fingerprint, subjects, and what superseded it. */
  Optional<RegisterEntry> registered(String factId);

  /** Where the records of a fact id stand in the log and its chain; none where it has none. */
  List<ChainPositions.Position> positions(String factId);

  /** Every fact of a subject, superseded ones marked, by time and id. */
  List<Entry> dossier(Subject subject);

  /** What parents, the hybrid and the ground last told a subject. */
  List<Report> reports(Subject subject);

  /** The whole dossier of a subject, as the gates see it. */
  default Dossier wholeDossier(Subject subject) {
    return new Dossier(subject, dossier(subject), reports(subject));
  }

  /** The whole pedigree on this instance. */
  Pedigree pedigree();

  /** Settings with which a consumer reads committed records of the topics. */
  Map<String, Object> consumerSettings();

  /** Records of the input topics that are not processed yet, by topic; for "lag of the data". */
  Map<String, Long> lag();

  /**
   * How many of the facts among them nobody may read yet, because a producer keeps a transaction
   * open: its own records and all that came in behind them.
   */
  long factsHeldBack();
}
