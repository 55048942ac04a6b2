package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.StandingSummary;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/** A change of a standing of which only the subject matters. */
public final class InventedChange {

  /** That all is met. */
  public static final StandingSummary REASON =
      new StandingSummary(StandingState.FIT, Optional.empty(), Optional.empty(), 1);

  private InventedChange() {}

  public static StandingChange of(String subject) {
    return new StandingChange(
        subject,
        Optional.empty(),
        StandingState.FIT,
        Optional.empty(),
        ReleaseStep.NONE,
        REASON,
        List.of(),
        List.of(),
        Instant.EPOCH);
  }
}
