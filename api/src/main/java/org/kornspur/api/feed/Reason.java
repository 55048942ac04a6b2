package org.kornspur.api.feed;

import java.util.Optional;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/** The first thing that a person should hear of a standing. */
public final class Reason {

  private Reason() {}

  /**
   * The reason for the state, worst first: an own gate that is not met, an inherited fault, own
   * evidence owed, inherited evidence owed; or that all gates are met.
   */
  public static String of(LotStanding standing) {
    Optional<String> why =
        switch (standing.getState()) {
          case NOT_FIT ->
              own(standing, VerdictState.NOT_MET).or(() -> inherited(standing, "CONDEMNS"));
          case EVIDENCE_OWED ->
              own(standing, VerdictState.OWED).or(() -> inherited(standing, "OWED"));
          case FIT, UNKNOWN -> Optional.empty();
        };
    return why.orElseGet(() -> otherwise(standing));
  }

  private static Optional<String> own(LotStanding standing, VerdictState state) {
    return standing.getVerdicts().stream()
        .filter(verdict -> verdict.getState() == state)
        .map(verdict -> verdict.getSentence())
        .findFirst();
  }

  private static Optional<String> inherited(LotStanding standing, String weight) {
    return standing.getInherited().stream()
        .filter(trouble -> trouble.getWeight().equals(weight))
        .map(Reason::inherited)
        .findFirst();
  }

  private static String inherited(InheritedTrouble trouble) {
    return "Inherited from " + trouble.getOrigin() + ": " + trouble.getSentence();
  }

  private static String otherwise(LotStanding standing) {
    int gates = standing.getVerdicts().size();
    return standing.getState() == StandingState.FIT
        ? "All gates that apply are met (" + gates + ")."
        : "No gate says why; see the gates of " + standing.getSubject() + ".";
  }
}
