package org.kornspur.api.readmodel;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * What an index keeps of one standing.
 *
 * @param packed the record as it came
 * @param origins crops and lots that it is not fit for, itself among them; empty unless not fit
 * @param owed what it owes of its own, soonest first
 * @param customersKg mass that left for customers, kilograms
 */
record IndexedStanding(
    StandingRow row,
    CompressedRecord packed,
    Set<Subject> origins,
    List<EvidenceDeadline> owed,
    double customersKg) {

  static IndexedStanding of(LotStanding standing, StandingRow row, CompressedRecord packed) {
    return new IndexedStanding(
        row,
        packed,
        origins(standing, row),
        EvidenceDeadline.of(row.subject(), standing),
        standing.getCustomersKg());
  }

  private static Set<Subject> origins(LotStanding standing, StandingRow row) {
    if (standing.getState() != StandingState.NOT_FIT) {
      return Set.of();
    }
    Stream<Subject> inherited =
        standing.getInherited().stream()
            .filter(trouble -> StandingRecords.weighs(trouble, InheritedFinding.Weight.CONDEMNS))
            .map(trouble -> Subject.parse(trouble.getOrigin()));
    Stream<Subject> own =
        standing.getVerdicts().stream()
            .filter(verdict -> verdict.getState() == VerdictState.NOT_MET)
            .map(verdict -> row.subject());
    return Stream.concat(inherited, own).collect(Collectors.toUnmodifiableSet());
  }

  /** Whether somebody is to do something about it. */
  boolean isWaiting() {
    return !origins.isEmpty()
        || !owed.isEmpty()
        || row.release() == ReleaseStep.SUSPENDED
        || row.release() == ReleaseStep.PROPOSED;
  }
}
