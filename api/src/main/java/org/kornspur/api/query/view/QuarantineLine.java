package org.kornspur.api.query.view;

import java.time.Instant;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.QuarantineRow;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.ProblemWords;

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
    @Schema(nullable = true, description = "Fact that a replay brought in; null while held")
        String replayedAs,
    String href) {

  public static QuarantineLine of(QuarantineRow row, ProblemWords words) {
    return new QuarantineLine(
        row.entryId(),
        row.state(),
        row.origin(),
        row.place(),
        row.receivedAt(),
        words.summary(row.problems()),
        row.problems().size(),
        row.originalBytes(),
        row.replayedAs().orElse(null),
        Addresses.ofEntry(row.entryId()));
  }
}
