package org.kornspur.api.readmodel;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictState;

/**
 * What one crop or lot owes by one day.
 *
 * @param due empty where no day is known
 * @param pieces how many gates and aspects wait for evidence
 */
public record EvidenceDeadline(Subject subject, Optional<FloweringDue> due, int pieces) {

  /** What has no day comes last; crops before lots; total over what an index holds. */
  static final Comparator<EvidenceDeadline> SOONEST_FIRST =
      Comparator.comparing(EvidenceDeadline::day)
          .thenComparing(owed -> owed.subject().kind(), Comparator.reverseOrder())
          .thenComparing(owed -> owed.subject().id())
          .thenComparing(owed -> owed.due().map(due -> !due.beforeFlowering()).orElse(true));

  /** All that a standing owes of its own, by day. */
  static List<EvidenceDeadline> of(Subject subject, LotStanding standing) {
    Map<Optional<FloweringDue>, Long> pieces =
        standing.getVerdicts().stream()
            .filter(verdict -> verdict.getState() == VerdictState.OWED)
            .collect(
                Collectors.groupingBy(
                    verdict -> FloweringDue.of(verdict.getGate(), standing),
                    Collectors.counting()));
    return pieces.entrySet().stream()
        .map(one -> new EvidenceDeadline(subject, one.getKey(), one.getValue().intValue()))
        .sorted(SOONEST_FIRST)
        .toList();
  }

  /** Whether a verdict of the same standing is one of the pieces. */
  public boolean holds(GateVerdict verdict, LotStanding standing) {
    return verdict.getState() == VerdictState.OWED
        && FloweringDue.of(verdict.getGate(), standing).equals(due);
  }

  LocalDate day() {
    return due.map(FloweringDue::day).orElse(LocalDate.MAX);
  }
}
