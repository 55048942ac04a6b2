package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import org.jboss.logging.Logger;
import org.kornspur.api.time.SteadyClock;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.NotificationState;

/** Sends one message once, and notes what became of it. */
@ApplicationScoped
public class MessageDelivery {
  private static final Logger LOG = Logger.getLogger(MessageDelivery.class);
  private static final Duration LONGEST_PAUSE = Duration.ofHours(12);

  @Inject MessageWriter writer;
  @Inject MailSender mail;
  @Inject Webhook webhook;
  @Inject WebhookSecrets secrets;
  @Inject MessageStore keeping;
  @Inject NotificationSettings settings;
  private final Clock clock = SteadyClock.ofMachine();

  void attempt(NotificationMessage message, NotificationChoice choice, Receiver receiver) {
    Optional<WrittenMessage> written = writer.write(message, choice, receiver);
    if (written.isEmpty()) {
      keeping.forget(message);
      return;
    }
    try {
      switch (choice.getChannel()) {
        case EMAIL -> mail.send(written.get(), choice.getAddress());
        case WEBHOOK -> webhook.send(written.get(), choice.getAddress(), secrets.of(choice));
      }
      keeping.keep(
          MessagePlan.next(message)
              .setState(NotificationState.SENT)
              .setAttempts(message.getAttempts() + 1)
              .setFailure(null)
              .setFailureDetail("")
              .build());
    } catch (DeliveryFailed failed) {
      keeping.keep(failed(message, failed));
    }
  }

  private NotificationMessage failed(NotificationMessage message, DeliveryFailed failed) {
    int attempts = message.getAttempts() + 1;
    boolean isGivenUp = attempts >= settings.notifications().attempts();
    if (isGivenUp) {
      LOG.warnf(
          "Notification %s to %s was given up after %d attempts: %s",
          message.getMessageId(), message.getPersonId(), attempts, failed.why());
    }
    return MessagePlan.next(message)
        .setState(isGivenUp ? NotificationState.GIVEN_UP : NotificationState.WAITING)
        .setAttempts(attempts)
        .setNextAttemptAt(
            clock.instant().plus(pause(settings.notifications().firstPause(), attempts)))
        .setFailure(failed.why())
        .setFailureDetail(failed.detail())
        .build();
  }

  /** Twice as long after each attempt. */
  static Duration pause(Duration first, int attempts) {
    Duration pause = first;
    for (int doubled = 1; doubled < attempts && pause.compareTo(LONGEST_PAUSE) < 0; doubled++) {
      pause = pause.multipliedBy(2);
    }
    return pause.compareTo(LONGEST_PAUSE) < 0 ? pause : LONGEST_PAUSE;
  }
}
