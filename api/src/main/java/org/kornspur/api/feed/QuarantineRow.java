package org.kornspur.api.feed;

import java.time.Instant;
import java.util.Optional;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;

/**
 * What a list shows of one refused input.
 *
 * @param place file and line, topic partition and offset, or request id
 * @param problems how many things are wrong
 * @param originalBytes length of the input
 * @param replayedAs fact that a replay brought in
 * @param submittedBy person who sent it over the interface; empty for files and topics
 */
public record QuarantineRow(
    String entryId,
    QuarantineOrigin origin,
    String place,
    Instant receivedAt,
    String reason,
    int problems,
    int originalBytes,
    QuarantineState state,
    Optional<String> replayedAs,
    Optional<String> submittedBy) {}
