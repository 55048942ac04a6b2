package org.kornspur.api.query.view;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.stream.StatementRecords;
import org.kornspur.standing.RuleNote;

/** What the rulebook says beside its limits; it is never counted as met. */
@Schema(
    description =
        "What the rulebook says beside its limits, as that it asks for nothing; never counted as"
            + " met")
public record RuleNoteView(
    @Schema(nullable = true, description = "Gate that it speaks of; null where it speaks of all")
        String gate,
    String sentence,
    StatementView finding) {

  static RuleNoteView of(RuleNote note, VerdictWords words) {
    List<Coded> finding = List.of(StatementRecords.read(note.getFinding()));
    return new RuleNoteView(
        note.getGate(), words.whole(finding), StatementView.of(finding, words.words()).get(0));
  }
}
