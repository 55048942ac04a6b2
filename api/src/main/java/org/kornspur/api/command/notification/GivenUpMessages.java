package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.readmodel.NotificationReadModel;
import org.kornspur.api.security.Caller;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.NotificationState;
import org.kornspur.ingest.problem.Given;

/** The messages that failed as often as is tried, and what an administrator does about them. */
@ApplicationScoped
public class GivenUpMessages {
  private static final Logger LOG = Logger.getLogger(GivenUpMessages.class);

  @Inject NotificationReadModel readModel;
  @Inject MessageStore keeping;
  private final Clock clock = Clock.tickMillis(ZoneOffset.UTC);

  /** All of them, the oldest first. What they tell of is not for an administrator. */
  public List<NotificationMessage> all() {
    return readModel.index().messages().stream()
        .filter(message -> message.getState() == NotificationState.GIVEN_UP)
        .sorted(
            Comparator.comparing(NotificationMessage::getMadeAt)
                .thenComparing(NotificationMessage::getMessageId))
        .toList();
  }

  /**
   * Has one tried again from the first attempt on, under the same id.
   *
   * @throws ApiProblem if no such message was given up
   */
  public void sendAgain(Caller caller, String messageId) {
    NotificationMessage message = get(messageId);
    keeping.keep(
        MessagePlan.next(message)
            .setState(NotificationState.WAITING)
            .setAttempts(0)
            .setNextAttemptAt(clock.instant())
            .build());
    LOG.infof("%s had notification %s sent again", caller.personId(), messageId);
  }

  /**
   * Forgets one.
   *
   * @throws ApiProblem if no such message was given up
   */
  public void discard(Caller caller, String messageId) {
    keeping.forget(get(messageId));
    LOG.infof("%s discarded notification %s", caller.personId(), messageId);
  }

  private NotificationMessage get(String messageId) {
    return readModel
        .index()
        .message(messageId)
        .filter(message -> message.getState() == NotificationState.GIVEN_UP)
        .orElseThrow(
            () -> ApiProblem.notFound(new AddressDetail.NoMessage(Given.text(messageId, false))));
  }
}
