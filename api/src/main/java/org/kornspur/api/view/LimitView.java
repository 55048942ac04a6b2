package org.kornspur.api.view;

import java.time.LocalDate;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.standing.VerdictLimit;

/** The limit that a gate was judged by, and where it stands written. */
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
        String source) {

  static LimitView of(VerdictLimit limit) {
    String source =
        "%s %s, %s, in force from %s%s"
            .formatted(
                limit.getRulebookId(),
                limit.getEdition(),
                limit.getSection(),
                limit.getInForceFrom(),
                limit.getVerified() ? "" : "; not verified against the text");
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
        source);
  }
}
