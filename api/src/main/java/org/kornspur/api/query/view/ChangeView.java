package org.kornspur.api.query.view;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.StandingChange;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

@Schema(description = "A standing that was written again")
public record ChangeView(
    @Schema(description = "Crop or lot, as kind:id") String subject,
    @Schema(description = "Empty where it is new, or what went before is no longer kept")
        Optional<StandingState> oldState,
    StandingState newState,
    Optional<ReleaseStep> oldRelease,
    ReleaseStep newRelease,
    @Schema(description = "The first reason for the new state, in the language of the listener")
        String reason,
    List<String> notMet,
    List<String> owed,
    Instant changedAt) {

  public static ChangeView of(StandingChange change, FirstReasonWords words) {
    StandingIndexRow after = change.after();
    return new ChangeView(
        after.subject().toString(),
        change.before().map(StandingIndexRow::state),
        after.state(),
        change.before().map(StandingIndexRow::release),
        after.release(),
        words.reason(after.reason()),
        after.notMet(),
        after.owed(),
        after.changedAt());
  }
}
