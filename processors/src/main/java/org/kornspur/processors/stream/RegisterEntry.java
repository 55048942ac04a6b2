package org.kornspur.processors.stream;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;

/**
 * What is known of one fact id.
 *
 * @param fingerprint of the fact; empty while only a revocation has come
 * @param subjects text forms of the subjects whose dossiers hold it
 * @param revokedBy ids of facts that supersede it, each with its reason
 */
public record RegisterEntry(
    Optional<String> fingerprint, List<String> subjects, SortedMap<String, String> revokedBy) {}
