package org.kornspur.api.query.view;

import java.time.LocalDate;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.standing.VerdictLimit;

@Schema(description = "The limit that a gate was judged by, and where it stands written")
public record LimitView(
    @Schema(examples = "GERMINATION") String quantity,
    @Schema(enumeration = {"AT_LEAST", "AT_MOST"}) String sense,
    @Schema(examples = "85") double value,
    @Schema(examples = "%") String unit,
    @Schema(description = "Rulebook", examples = "EU") String rulebookId,
    String edition,
    @Schema(description = "Section of the text") String section,
    LocalDate inForceFrom,
    @Schema(description = "False where the value could not be read in the text itself")
        boolean verified,
    @Schema(description = "Source in one line, with a warning where it is not verified")
        String source,
    @Schema(description = "The limit as the text has it", examples = "at least 85 %")
        String wording) {

  static LimitView of(VerdictLimit limit, VerdictWords words) {
    return new LimitView(
        limit.getQuantity(),
        limit.getSense(),
        limit.getValue(),
        limit.getUnit(),
        limit.getRulebookId(),
        limit.getEdition(),
        limit.getSection(),
        limit.getInForceFrom(),
        limit.getVerified(),
        words.source(limit),
        words.limit(limit));
  }
}
