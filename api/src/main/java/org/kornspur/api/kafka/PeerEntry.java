package org.kornspur.api.kafka;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.processors.dossier.Entry;

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
    boolean awaitsConfirmation,
    List<Entry.Superseded> unconfirmed) {}
