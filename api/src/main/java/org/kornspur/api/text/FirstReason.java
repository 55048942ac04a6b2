package org.kornspur.api.text;

import java.util.List;
import java.util.Optional;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * The first thing that a person should hear of a standing: an own gate that is not met, an
 * inherited fault, own evidence owed, inherited evidence owed; or that all gates are met.
 *
 * @param verdict the own verdict that it is; empty where it is none
 * @param trouble the inherited problem that it is; empty where it is none
 * @param gates verdicts in all
 */
public record FirstReason(
    StandingState state,
    Optional<GateVerdict> verdict,
    Optional<InheritedTrouble> trouble,
    int gates) {

  public static FirstReason of(LotStanding standing) {
    return switch (standing.getState()) {
      case NOT_FIT -> of(standing, VerdictState.NOT_MET, InheritedFinding.Weight.CONDEMNS);
      case EVIDENCE_OWED -> of(standing, VerdictState.OWED, InheritedFinding.Weight.OWED);
      case FIT, UNKNOWN ->
          new FirstReason(
              standing.getState(),
              Optional.empty(),
              Optional.empty(),
              standing.getVerdicts().size());
    };
  }

  private static FirstReason of(
      LotStanding standing, VerdictState state, InheritedFinding.Weight weight) {
    Optional<GateVerdict> own =
        standing.getVerdicts().stream().filter(verdict -> verdict.getState() == state).findFirst();
    Optional<InheritedTrouble> inherited =
        own.isPresent()
            ? Optional.empty()
            : standing.getInherited().stream()
                .filter(trouble -> StandingRecords.weighs(trouble, weight))
                .findFirst();
    return new FirstReason(
        standing.getState(),
        own.map(FirstReason::inShort),
        inherited.map(FirstReason::inShort),
        standing.getVerdicts().size());
  }

  /** There is a row for each crop and lot: it holds what one line says and no more. */
  private static GateVerdict inShort(GateVerdict verdict) {
    return GateVerdict.newBuilder(verdict)
        .setFindings(verdict.getFindings().stream().limit(1).toList())
        .setFactIds(List.of())
        .setAdvice(List.of())
        .build();
  }

  private static InheritedTrouble inShort(InheritedTrouble trouble) {
    return InheritedTrouble.newBuilder(trouble)
        .setFindings(trouble.getFindings().stream().limit(1).toList())
        .setFactIds(List.of())
        .setPath(List.of())
        .build();
  }
}
