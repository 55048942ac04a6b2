package org.kornspur.api.feed;

import java.time.Instant;
import java.util.Optional;
import java.util.Set;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;

/**
 * What a list shows of one refused input.
 *
 * @param place file and line, topic partition and offset, or request id
 * @param problems how many things are wrong
 * @param originalBytes length of the input
 * @param replayedAs fact that a replay brought in
 * @param senders persons who sent it over the interface, the same bytes each; empty for files and
 *     topics
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
    Set<String> senders) {

  QuarantineRow sentBy(Set<String> all) {
    return new QuarantineRow(
        entryId,
        origin,
        place,
        receivedAt,
        reason,
        problems,
        originalBytes,
        state,
        replayedAs,
        Set.copyOf(all));
  }
}
