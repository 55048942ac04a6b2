package org.kornspur.api.query.view;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.problem.ProblemView;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

@Schema(description = "A refused input, whole")
public record QuarantineView(
    String entryId,
    QuarantineState state,
    QuarantineOrigin origin,
    @Schema(description = "File and line, topic partition and offset, or request id") String place,
    Instant receivedAt,
    String reason,
    List<ProblemView> problems,
    @Schema(
            nullable = true,
            description = "Key of the record on the topic; null where there was none")
        Original originalKey,
    Original original,
    @Schema(
            nullable = true,
            description =
                "Length of the input where it was too large and only its beginning is kept; null"
                    + " where it is whole")
        Long wholeBytes,
    @Schema(nullable = true, description = "Fact that a replay brought in; null while held")
        String replayedAs,
    @Schema(
            nullable = true,
            description =
                "Person who replayed or discarded it; null while held, and for old decisions")
        String decidedBy,
    @Schema(nullable = true, description = "When that was") Instant decidedAt,
    @Schema(nullable = true, description = "Why, in the person's words; null for a replay without")
        String decisionReason,
    @Schema(description = "What can be done with it") Map<String, String> links) {

  @Schema(description = "Bytes as they came: as text where they are UTF-8, else in Base64")
  public record Original(
      @Schema(enumeration = {"utf-8", "base64"}) String encoding, String content, int bytes) {

    static Original of(ByteBuffer bytes) {
      byte[] copy = new byte[bytes.remaining()];
      bytes.duplicate().get(copy);
      try {
        String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(copy)).toString();
        return new Original("utf-8", text, copy.length);
      } catch (CharacterCodingException e) {
        return new Original("base64", Base64.getEncoder().encodeToString(copy), copy.length);
      }
    }
  }

  public static QuarantineView of(QuarantineEntry entry, ProblemWords words) {
    List<Problem> problems = entry.getProblems().stream().map(Problem::of).toList();
    String self = Addresses.ofEntry(entry.getEntryId());
    Map<String, String> links = new LinkedHashMap<>();
    links.put("self", self);
    if (entry.getState() == QuarantineState.HELD) {
      links.put("replay", self + "/replay");
      links.put("discard", self + "/discard");
    }
    return new QuarantineView(
        entry.getEntryId(),
        entry.getState(),
        entry.getOrigin(),
        entry.getPlace(),
        entry.getReceivedAt(),
        words.summary(problems),
        ProblemView.all(problems, words),
        entry.getOriginalKey() == null ? null : Original.of(entry.getOriginalKey()),
        Original.of(entry.getOriginalValue()),
        entry.getWholeBytes(),
        entry.getReplayedAs(),
        entry.getDecidedBy(),
        entry.getDecidedAt(),
        entry.getDecisionReason(),
        links);
  }
}
