package org.kornspur.api.view;

import java.time.Instant;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.feed.QuarantineRow;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;

/** A refused input in a list. */
@Schema(description = "A refused input in a list")
public record QuarantineLine(
    String entryId,
    QuarantineState state,
    QuarantineOrigin origin,
    @Schema(description = "File and line, topic partition and offset, or request id") String place,
    Instant receivedAt,
    @Schema(description = "One sentence: what is wrong") String reason,
    @Schema(description = "How many things are wrong", examples = "2") int problems,
    @Schema(description = "Length of the input", examples = "412") int originalBytes,
    @Schema(description = "Fact that a replay brought in; null while held") String replayedAs,
    String href) {

  public static QuarantineLine of(QuarantineRow row) {
    return new QuarantineLine(
        row.entryId(),
        row.state(),
        row.origin(),
        row.place(),
        row.receivedAt(),
        row.reason(),
        row.problems(),
        row.originalBytes(),
        row.replayedAs().orElse(null),
        Addresses.ofEntry(row.entryId()));
  }
}
