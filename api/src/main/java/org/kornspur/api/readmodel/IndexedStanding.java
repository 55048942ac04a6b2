package org.kornspur.api.readmodel;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * What an index keeps of one standing.
 *
 * @param packed the record as it came
 * @param causes why it is not fit, each with the crops and lots that do not meet a gate for it,
 *     itself or ancestors; empty unless not fit
 * @param owed what it owes of its own, soonest first
 * @param customersKg mass that left for customers, kilograms
 * @param dispatchedUnreleased whether some left while it was not released, which it still is not
 */
record IndexedStanding(
    StandingIndexRow row,
    CompressedRecord packed,
    Map<CauseKey, Set<Subject>> causes,
    List<EvidenceDeadline> owed,
    double customersKg,
    boolean dispatchedUnreleased) {

  static IndexedStanding of(LotStanding standing, StandingIndexRow row, CompressedRecord packed) {
    return new IndexedStanding(
        row,
        packed,
        causes(standing, row.subject()),
        EvidenceDeadline.of(row.subject(), standing),
        standing.getCustomersKg(),
        isDispatchedUnreleased(standing.getRelease()));
  }

  private static Map<CauseKey, Set<Subject>> causes(LotStanding standing, Subject judged) {
    if (standing.getState() != StandingState.NOT_FIT) {
      return Map.of();
    }
    Map<CauseKey, Set<Subject>> causes = new HashMap<>();
    standing.getInherited().stream()
        .filter(trouble -> StandingRecords.weighs(trouble, InheritedFinding.Weight.CONDEMNS))
        .forEach(trouble -> add(causes, CauseKey.of(trouble), Subject.parse(trouble.getOrigin())));
    standing.getVerdicts().stream()
        .filter(verdict -> verdict.getState() == VerdictState.NOT_MET)
        .forEach(verdict -> add(causes, CauseKey.of(judged, verdict), judged));
    return causes;
  }

  private static void add(Map<CauseKey, Set<Subject>> causes, CauseKey cause, Subject origin) {
    causes.computeIfAbsent(cause, one -> new HashSet<>()).add(origin);
  }

  private static boolean isDispatchedUnreleased(LotRelease release) {
    return release != null
        && release.getDispatchedUnreleasedKg() > 0
        && release.getStep() != ReleaseStep.RELEASED;
  }

  /** Whether somebody is to do something about it. */
  boolean isWaiting() {
    return !causes.isEmpty()
        || !owed.isEmpty()
        || dispatchedUnreleased
        || row.release() == ReleaseStep.SUSPENDED
        || row.release() == ReleaseStep.PROPOSED;
  }
}
