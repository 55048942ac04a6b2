package org.kornspur.api.query.proof;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.chain.ProvedSegment;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.proof.Proof;
import org.kornspur.ingest.proof.ProvedFact;
import org.kornspur.ingest.registry.UnknownSchema;
import org.kornspur.ingest.wire.NotWireFormat;
import org.kornspur.ingest.wire.UnknownRecordType;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.stream.ChainPositions.Position;
import org.kornspur.processors.stream.RegisterEntry;
import org.kornspur.processors.stream.Topics;

/** Puts a dossier together with what proves it. */
@ApplicationScoped
public class DossierProofs {
  /** Pieces of the chain that a series keeps; one has some 256 links. */
  private static final int MOST_KEPT = 500;

  @Inject ProcessorsClient processors;
  @Inject SiteKeys keys;
  private final Clock clock = Clock.systemUTC();

  /**
   * The proof of what a subject's dossier holds, the facts that supersede others included.
   *
   * @param entries the dossier's facts, in the order in which they are to stand
   */
  public Proof prove(Subject subject, List<Entry> entries) {
    try (Series series = series()) {
      return series.prove(subject, entries);
    }
  }

  /** For one proof after the other. */
  public Series series() {
    return new Series();
  }

  /** Makes proofs one after the other and reads no piece of the chain twice. For one thread. */
  public final class Series implements AutoCloseable {
    private final LogReader log = new LogReader(processors);
    private final List<ProvedSegment> read = new ArrayList<>();

    private Series() {}

    @Override
    public void close() {
      log.close();
    }

    /** As {@link DossierProofs#prove}. */
    public Proof prove(Subject subject, List<Entry> entries) {
      log.lookAgain();
      Gathering gathering = new Gathering(log, read);
      Map<String, String> fingerprints = new LinkedHashMap<>();
      Map<String, SpecificRecord> held = new HashMap<>();
      for (Entry entry : entries) {
        String factId = entry.header().getFactId();
        fingerprints.put(factId, Fingerprint.of(entry.fact()));
        held.put(factId, entry.fact());
      }
      for (Entry entry : entries) {
        entry
            .superseded()
            .map(Entry.Superseded::byFactId)
            .filter(by -> !fingerprints.containsKey(by))
            .flatMap(
                by ->
                    processors
                        .registered(by)
                        .flatMap(RegisterEntry::fingerprint)
                        .map(fingerprint -> Map.entry(by, fingerprint)))
            .ifPresent(found -> fingerprints.put(found.getKey(), found.getValue()));
      }
      fingerprints.forEach(
          (factId, fingerprint) ->
              gathering.add(factId, fingerprint, Optional.ofNullable(held.get(factId))));
      return Proof.seal(
          subject.toString(),
          clock.instant(),
          gathering.facts,
          gathering.schemas,
          gathering.segments,
          keys.signing());
    }
  }

  /** Facts, schemas and segments as they are found. */
  private final class Gathering {
    private final LogReader log;
    private final List<ProvedSegment> read;
    private final WireFormat wire = processors.wire();
    private final List<ProvedFact> facts = new ArrayList<>();
    private final Map<Integer, String> schemas = new HashMap<>();
    private final List<ProvedSegment> segments = new ArrayList<>();

    Gathering(LogReader log, List<ProvedSegment> read) {
      this.log = log;
      this.read = read;
    }

    void add(String factId, String fingerprint, Optional<SpecificRecord> held) {
      for (Position position : processors.positions(factId)) {
        Optional<LogRecord> record = log.record(position.partition(), position.offset());
        Optional<SpecificRecord> fact = record.flatMap(this::decode);
        if (fact.isPresent() && Fingerprint.of(fact.get()).equals(fingerprint)) {
          ProvedFact.Place place =
              new ProvedFact.Place(record.get(), position.sequence(), segmentOf(position));
          add(factId, fact.get(), record.get().value(), Optional.of(place));
          return;
        }
      }
      held.ifPresent(
          fact -> add(factId, fact, wire.encode(Topics.FACTS.topicName(), fact), Optional.empty()));
    }

    private void add(
        String factId, SpecificRecord fact, byte[] bytes, Optional<ProvedFact.Place> place) {
      WireFormat.WriterSchema schema = wire.writerSchema(bytes);
      schemas.putIfAbsent(schema.id(), schema.schema().toString());
      facts.add(new ProvedFact(factId, AvroJson.write(fact), bytes, schema.id(), place));
    }

    /** A record under the same key that is no fact was refused, and is in no dossier. */
    private Optional<SpecificRecord> decode(LogRecord record) {
      try {
        return record.value() == null ? Optional.empty() : Optional.of(wire.decode(record.value()));
      } catch (NotWireFormat | UnknownSchema | UnknownRecordType refused) {
        return Optional.empty();
      }
    }

    private int segmentOf(Position position) {
      for (int i = 0; i < segments.size(); i++) {
        if (covers(segments.get(i), position)) {
          return i;
        }
      }
      Optional<ProvedSegment> found =
          read.stream()
              .filter(segment -> covers(segment, position))
              .findFirst()
              .or(() -> segmentOver(position));
      found.ifPresent(segments::add);
      return found.isPresent() ? segments.size() - 1 : -1;
    }

    private static boolean covers(ProvedSegment segment, Position position) {
      return segment.until().partition() == position.partition()
          && segment.afterSequence() < position.sequence()
          && position.sequence() <= segment.until().sequence();
    }

    private Optional<ProvedSegment> segmentOver(Position position) {
      Optional<ProvedSegment> over =
          log.checkpointOver(position.partition(), position.sequence()).map(this::segmentUntil);
      if (read.size() == MOST_KEPT) {
        read.remove(0);
      }
      over.ifPresent(read::add);
      return over;
    }

    private ProvedSegment segmentUntil(Checkpoint until) {
      Optional<Checkpoint> after =
          until.number() == 1
              ? Optional.empty()
              : log.checkpoint(until.partition(), until.number() - 1);
      long from = after.map(Checkpoint::sequence).orElse(0L) + 1;
      return ProvedSegment.of(after, until, log.links(until.partition(), from, until.sequence()));
    }
  }
}
