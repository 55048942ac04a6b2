package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.StandingSummary;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;

/**
 * What a list shows of one crop or lot.
 *
 * @param state fit, not fit, or evidence owed
 * @param release how far persons have released it; NONE for a crop
 * @param reason the first thing that is wrong or owed, or that all is met
 * @param material what it is; empty while its origin is unknown
 * @param rulebook title and edition
 * @param notMet gates that are not met, own and inherited, by name
 * @param owed gates that evidence is owed for, own and inherited, by name
 * @param heldKg mass that came in, kilograms
 * @param givenOutKg mass that went out, kilograms
 * @param holder enterprise
 * @param changedAt when the processors last wrote it
 */
public record StandingRow(
    Subject subject,
    StandingState state,
    ReleaseStep release,
    StandingSummary reason,
    Optional<SeedMaterial> material,
    Optional<String> rulebook,
    List<String> notMet,
    List<String> owed,
    double heldKg,
    double givenOutKg,
    Optional<String> holder,
    Instant changedAt) {

  /** Where the state stands when the worst comes first. */
  public int urgency() {
    return switch (state) {
      case NOT_FIT -> 0;
      case EVIDENCE_OWED -> 1;
      case UNKNOWN -> 2;
      case FIT -> 3;
    };
  }
}
