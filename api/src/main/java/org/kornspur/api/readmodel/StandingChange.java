package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.StandingSummary;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/**
 * A standing that was written again.
 *
 * @param subject crop or lot, as kind:id
 * @param oldState empty where it is new, or where what went before is no longer kept
 * @param oldRelease how far it was released; empty like oldState
 * @param newRelease how far it is released now
 * @param reason the first reason for the new state
 */
public record StandingChange(
    String subject,
    Optional<StandingState> oldState,
    StandingState newState,
    Optional<ReleaseStep> oldRelease,
    ReleaseStep newRelease,
    StandingSummary reason,
    List<String> notMet,
    List<String> owed,
    Instant changedAt) {

  static StandingChange of(Optional<StandingRow> before, StandingRow after) {
    return new StandingChange(
        after.subject().toString(),
        before.map(StandingRow::state),
        after.state(),
        before.map(StandingRow::release),
        after.release(),
        after.reason(),
        after.notMet(),
        after.owed(),
        after.changedAt());
  }
}
