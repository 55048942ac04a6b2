package org.kornspur.api.engine;

import java.time.Instant;
import java.util.Optional;

/**
 * A dossier's entry as one instance tells another: the fact in wire format, and what superseded it,
 * why, by whom and when.
 */
public record KeptEntry(
    byte[] wire,
    Optional<String> supersededBy,
    Optional<String> reason,
    Optional<String> recordedBy,
    Optional<Instant> recordedAt) {}
