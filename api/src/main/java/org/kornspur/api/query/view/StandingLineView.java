package org.kornspur.api.query.view;

import java.time.Instant;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

@Schema(description = "A crop or lot in a list")
public record StandingLineView(
    @Schema(description = "kind:id", examples = "lot:F1-24-007") String subject,
    @Schema(examples = "F1-24-007") String id,
    @Schema(enumeration = {"lot", "crop"}) String kind,
    StandingState state,
    @Schema(description = "How far persons have released it; NONE for a crop") ReleaseStep release,
    @Schema(description = "The first thing that is wrong or owed, in one sentence") String reason,
    @Schema(nullable = true, description = "Null while its origin is unknown")
        MaterialView material,
    @Schema(
            nullable = true,
            description = "Title and edition of the rulebook that it was judged by")
        String rulebook,
    @Schema(description = "Gates not met, own and inherited", examples = "[\"GERMINATION\"]")
        List<String> gatesNotMet,
    @Schema(description = "Gates that evidence is owed for, own and inherited")
        List<String> gatesOwed,
    @Schema(nullable = true, description = "Enterprise that grows the crop or declared the lot")
        String holder,
    @Schema(description = "Mass that came in; 0 for a crop", examples = "4200") double heldKg,
    @Schema(description = "Mass that went out; 0 for a crop", examples = "1200") double givenOutKg,
    @Schema(description = "Mass that is left", examples = "3000") double leftKg,
    @Schema(description = "When it was last judged again") Instant changedAt,
    @Schema(examples = "/api/v1/lots/F1-24-007") String href) {

  /** The row in the shape of the interface. */
  public static StandingLineView of(StandingIndexRow row, FirstReasonWords words) {
    return new StandingLineView(
        row.subject().toString(),
        row.subject().id(),
        row.subject().kind().word(),
        row.state(),
        row.release(),
        words.reason(row.reason()),
        row.material().map(MaterialView::of).orElse(null),
        row.rulebook().orElse(null),
        row.notMet(),
        row.owed(),
        row.holder().orElse(null),
        row.heldKg(),
        row.givenOutKg(),
        row.leftKg(),
        row.changedAt(),
        Addresses.of(row.subject()));
  }
}
