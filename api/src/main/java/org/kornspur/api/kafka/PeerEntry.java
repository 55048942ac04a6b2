package org.kornspur.api.kafka;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.stream.Topics;

/**
 * A dossier's entry as one instance tells another: the fact in wire format, and what superseded it,
 * why, by whom and when.
 *
 * @param awaitsConfirmation as in {@link Entry}
 * @param unconfirmed as in {@link Entry}; null from an instance of an earlier version
 */
public record PeerEntry(
    byte[] wire,
    Optional<String> supersededBy,
    Optional<String> reason,
    Optional<String> recordedBy,
    Optional<Instant> recordedAt,
    Optional<FactType> byType,
    boolean awaitsConfirmation,
    List<Entry.Superseded> unconfirmed) {

  static PeerEntry of(Entry entry, WireFormat wire) {
    Optional<Entry.Superseded> superseded = entry.superseded();
    return new PeerEntry(
        wire.encode(Topics.FACTS.topicName(), entry.fact()),
        superseded.map(Entry.Superseded::byFactId),
        superseded.map(Entry.Superseded::reason),
        superseded.flatMap(Entry.Superseded::recordedBy),
        superseded.flatMap(Entry.Superseded::recordedAt),
        superseded.flatMap(Entry.Superseded::byType),
        entry.awaitsConfirmation(),
        entry.unconfirmed());
  }

  Entry read(WireFormat format) {
    return new Entry(
        format.decode(wire),
        supersededBy.map(
            by -> new Entry.Superseded(by, reason.orElse(""), recordedBy, recordedAt, byType)),
        awaitsConfirmation,
        unconfirmed == null ? List.of() : unconfirmed);
  }
}
