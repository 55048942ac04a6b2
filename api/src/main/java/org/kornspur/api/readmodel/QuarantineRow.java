package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.Problem;

/**
 * What a list shows of one refused input.
 *
 * @param place file and line, topic partition and offset, or request id
 * @param problems what is wrong
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
    List<Problem> problems,
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
        problems,
        originalBytes,
        state,
        replayedAs,
        Set.copyOf(all));
  }
}
