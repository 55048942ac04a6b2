package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.FirstReason;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/** A change of a standing of which only the subject matters. */
public final class InventedChange {

  /** That all is met. */
  public static final FirstReason REASON =
      new FirstReason(StandingState.FIT, Optional.empty(), Optional.empty(), 1);

  private InventedChange() {}

  public static StandingChange of(String subject) {
    return new StandingChange(
        Optional.empty(),
        new StandingIndexRow(
            Subject.parse(subject),
            StandingState.FIT,
            ReleaseStep.NONE,
            REASON,
            Optional.empty(),
            Optional.empty(),
            List.of(),
            List.of(),
            0,
            0,
            Optional.empty(),
            false,
            Optional.empty(),
            Instant.EPOCH));
  }
}
