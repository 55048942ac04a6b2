package org.kornspur.api.command.notification;

import io.netty.util.concurrent.DefaultThreadFactory;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.readmodel.NotificationIndex;
import org.kornspur.api.readmodel.NotificationReadModel;
import org.kornspur.api.time.SteadyClock;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationItem;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.NotificationState;

/**
 * Looks every few seconds what became so that persons want to hear of, makes messages of it, and
 * has them delivered. Each step is kept in a topic before the next: a message that was made is sent
 * once at least, whatever ends, and twice only where the program ended between sending and noting
 * it.
 *
 * <p>Of several instances the one that owns the partition of a person's id does this for the
 * person. One that becomes the owner waits, until what the earlier one noted is read here.
 */
@ApplicationScoped
public class NotificationSender {
  private static final Logger LOG = Logger.getLogger(NotificationSender.class);
  private static final int AFTER_THE_FOLLOWERS = 6_000;
  private static final int BEFORE_THE_FOLLOWERS = 500;
  private static final int DELIVERING_THREADS = 4;
  private static final Duration WAIT_OF_NEW_OWNER = Duration.ofSeconds(30);

  /** What is known at a choice is written before it, to another topic, and must be read here. */
  private static final Duration WAIT_OF_NEW_CHOICE = Duration.ofSeconds(3);

  /** While facts come in, standings are not what they will be; but no longer than this. */
  private static final Duration LONGEST_UNSETTLED = Duration.ofMinutes(2);

  @Inject ProcessorsClient processors;
  @Inject NotificationReadModel readModel;
  @Inject CurrentEvents currentEvents;
  @Inject Receivers receivers;
  @Inject MessageDelivery delivery;
  @Inject MessageStore keeping;
  @Inject NotificationSettings settings;
  @Inject EngineSettings engine;

  private final Clock clock = SteadyClock.ofMachine();
  private final ScheduledExecutorService looking =
      Executors.newSingleThreadScheduledExecutor(new DefaultThreadFactory("notifications", true));
  private final ExecutorService delivering =
      Executors.newFixedThreadPool(
          DELIVERING_THREADS, new DefaultThreadFactory("notification-delivery", true));
  private final Set<String> inFlight = ConcurrentHashMap.newKeySet();
  private final Map<String, Instant> ownedSince = new HashMap<>();
  private final Map<String, LocalDate> dailyLookedAt = new HashMap<>();
  private Optional<Instant> unsettledSince = Optional.empty();

  void start(@Observes @Priority(AFTER_THE_FOLLOWERS) StartupEvent started) {
    long pause = settings.notifications().interval().toMillis();
    var unused = looking.scheduleWithFixedDelay(this::look, pause, pause, TimeUnit.MILLISECONDS);
  }

  void stop(@Observes @Priority(BEFORE_THE_FOLLOWERS) ShutdownEvent stopping) {
    looking.shutdownNow();
    delivering.shutdownNow();
  }

  private void look() {
    try {
      NotificationIndex index = readModel.index();
      if (!index.persons().isEmpty() && readModel.isCurrent()) {
        boolean isSettled = isSettled();
        for (String personId : index.persons()) {
          if (isMine(personId)) {
            lookFor(personId, index, isSettled);
          }
        }
      }
    } catch (NotReady notYet) {
      LOG.debugf("Notifications wait: %s", notYet.getMessage());
    } catch (RuntimeException fault) {
      LOG.warn("Notifications could not be looked for; it is tried again", fault);
    }
  }

  private boolean isSettled() {
    if (processors.recordsWaiting() == 0) {
      unsettledSince = Optional.empty();
      return true;
    }
    Instant now = clock.instant();
    unsettledSince = unsettledSince.or(() -> Optional.of(now));
    return unsettledSince.get().plus(LONGEST_UNSETTLED).isBefore(now);
  }

  private boolean isMine(String personId) {
    if (!processors.isOwner(personId)) {
      ownedSince.remove(personId);
      return false;
    }
    Instant now = clock.instant();
    Instant since = ownedSince.computeIfAbsent(personId, person -> now);
    return engine.bootstrapServers().isEmpty() || since.plus(WAIT_OF_NEW_OWNER).isBefore(now);
  }

  /** Who may not come in for a while hears afterwards what waited, and not all over again. */
  private void lookFor(String personId, NotificationIndex index, boolean isSettled) {
    Optional<NotificationChoice> choice =
        index.choice(personId).filter(NotificationChoice::getAddressConfirmed);
    Optional<Receiver> receiver = receivers.of(personId, choice);
    boolean isRead =
        choice
            .filter(one -> one.getChosenAt().plus(WAIT_OF_NEW_CHOICE).isAfter(clock.instant()))
            .isEmpty();
    if (isSettled && isRead && (choice.isEmpty() || receiver.isPresent())) {
      Set<NotificationItem> items =
          choice.map(one -> wanted(one, receiver.orElseThrow())).orElse(Set.of());
      planned(personId, choice, index.messagesTo(personId), items).forEach(keeping::keep);
    }
    index.messagesTo(personId).stream()
        .filter(message -> message.getState() == NotificationState.WAITING)
        .filter(message -> !message.getNextAttemptAt().isAfter(clock.instant()))
        .forEach(message -> deliver(message, choice, receiver));
  }

  private Set<NotificationItem> wanted(NotificationChoice choice, Receiver receiver) {
    return currentEvents.of(receiver, MessagePlan.wanted(choice), choice.getDaysAhead());
  }

  private List<NotificationMessage> planned(
      String personId,
      Optional<NotificationChoice> choice,
      List<NotificationMessage> before,
      Set<NotificationItem> items) {
    Instant now = clock.instant();
    ZoneId zone = ZoneId.systemDefault();
    MessagePlan plan = new MessagePlan(now, zone, settings.notifications().messagesPerMinute());
    List<NotificationMessage> changed = new ArrayList<>(plan.withoutOver(before, items));
    choice.ifPresent(
        one -> changed.addAll(plan.made(one, before, items, dailyIsDue(personId, now, zone))));
    return changed;
  }

  private boolean isAsItWas(NotificationMessage message) {
    return readModel
        .index()
        .message(message.getMessageId())
        .filter(now -> now.getRevision() == message.getRevision())
        .isPresent();
  }

  /** Once a day, when its hour is past; after a start that is looked at once more. */
  private boolean dailyIsDue(String personId, Instant now, ZoneId zone) {
    LocalDate today = now.atZone(zone).toLocalDate();
    boolean isDue =
        now.atZone(zone).getHour() >= settings.notifications().dailyHour()
            && !today.equals(dailyLookedAt.get(personId));
    if (isDue) {
      dailyLookedAt.put(personId, today);
    }
    return isDue;
  }

  private void deliver(
      NotificationMessage message,
      Optional<NotificationChoice> choice,
      Optional<Receiver> receiver) {
    if (choice.isEmpty() || receiver.isEmpty()) {
      keeping.forget(message);
      return;
    }
    if (inFlight.add(message.getMessageId())) {
      delivering.execute(
          () -> {
            try {
              // an attempt that ended since the look has noted what became of it
              if (isAsItWas(message)) {
                delivery.attempt(message, choice.get(), receiver.get());
              }
            } catch (NotReady notYet) {
              LOG.debugf("A notification waits: %s", notYet.getMessage());
            } catch (RuntimeException fault) {
              LOG.warnf(fault, "Notification %s could not be sent", message.getMessageId());
            } finally {
              inFlight.remove(message.getMessageId());
            }
          });
    }
  }
}
