package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.query.plan.PlanWatch;
import org.kornspur.api.readmodel.EvidenceDeadline;
import org.kornspur.api.readmodel.QuarantineRow;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.contract.NotificationItem;
import org.kornspur.contract.NotificationKind;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/**
 * What is so now that a person may hear of, as far as they may see it. What is told is what became
 * so between two looks; so it makes no difference in which order, how often and by what the
 * standings were written.
 */
@ApplicationScoped
public class CurrentEvents {
  /** No rye flowers longer. */
  private static final int LONGEST_FLOWERING_DAYS = 60;

  @Inject ReadModel readModel;
  @Inject PlanWatch plans;

  /**
   * All items of these kinds.
   *
   * @param daysAhead of which evidence is due
   * @throws NotReady until all lists are complete
   */
  Set<NotificationItem> of(Receiver receiver, Collection<NotificationKind> kinds, int daysAhead) {
    Set<NotificationItem> all = new HashSet<>();
    kinds.stream()
        .filter(receiver::mayHearOf)
        .forEach(kind -> items(kind, receiver, daysAhead).forEach(all::add));
    return all;
  }

  private Stream<NotificationItem> items(NotificationKind kind, Receiver receiver, int daysAhead) {
    LocalDate today = LocalDate.now();
    return switch (kind) {
      case UNKNOWN -> Stream.empty();
      case NOT_FIT -> subjects(kind, receiver, row -> row.state() == StandingState.NOT_FIT);
      case RELEASE_SUSPENDED ->
          subjects(kind, receiver, row -> row.release() == ReleaseStep.SUSPENDED);
      case EVIDENCE_DUE ->
          owed(receiver, today, today.plusDays(daysAhead))
              .map(one -> item(kind, one.subject().toString(), one.due().orElseThrow().day()));
      case VISIT_DUE ->
          owed(receiver, today, today.plusDays(LONGEST_FLOWERING_DAYS))
              .filter(one -> !one.due().orElseThrow().beforeFlowering())
              .map(EvidenceDeadline::subject)
              .filter(crop -> flowers(crop, today))
              .map(crop -> item(kind, crop.toString(), null));
      case PLAN_SHORT -> plans.lessMet().stream().map(one -> item(kind, one.key(), null));
      case QUARANTINED -> held(receiver).stream().map(entry -> item(kind, entry.entryId(), null));
    };
  }

  private Stream<NotificationItem> subjects(
      NotificationKind kind, Receiver receiver, Predicate<StandingIndexRow> wanted) {
    return readModel.standings().matching(wanted).stream()
        .map(StandingIndexRow::subject)
        .filter(receiver::sees)
        .map(subject -> item(kind, subject.toString(), null));
  }

  private Stream<EvidenceDeadline> owed(Receiver receiver, LocalDate first, LocalDate last) {
    return readModel.standings().owedBetween(first, last).stream()
        .filter(one -> receiver.sees(one.subject()));
  }

  private boolean flowers(Subject crop, LocalDate today) {
    return readModel
        .standing(crop)
        .map(standing -> standing.getFloweringFrom())
        .filter(from -> !from.isAfter(today))
        .isPresent();
  }

  /** Who does not see all sees what they sent themselves. */
  private List<QuarantineRow> held(Receiver receiver) {
    return readModel
        .quarantine()
        .find(
            Set.of(QuarantineState.HELD),
            row ->
                receiver.visibility().isWhole()
                    || row.senders().contains(receiver.caller().personId()),
            1,
            Integer.MAX_VALUE)
        .items();
  }

  private static NotificationItem item(NotificationKind kind, String about, LocalDate day) {
    return new NotificationItem(kind, about, day);
  }
}
