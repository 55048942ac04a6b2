package org.kornspur.api.engine;

import java.util.Optional;

/**
 * A dossier's entry as one instance tells another: the fact in wire format, and what superseded it.
 */
public record KeptEntry(byte[] wire, Optional<String> supersededBy, Optional<String> reason) {}
