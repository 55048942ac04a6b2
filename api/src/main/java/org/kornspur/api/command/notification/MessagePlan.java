package org.kornspur.api.command.notification;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationFrequency;
import org.kornspur.contract.NotificationItem;
import org.kornspur.contract.NotificationKind;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.NotificationState;
import org.kornspur.contract.NotificationWish;

/**
 * What becomes of the messages to one person when it is looked what is so: items that no message
 * told of make a new one, and items that are over are taken out, so that they are told of when they
 * come again. Pure.
 *
 * @param at of the look
 * @param zone of the site
 * @param mostInAMinute messages to a person; with more, what is new waits for a later look
 */
record MessagePlan(Instant at, ZoneId zone, int mostInAMinute) {
  /** So many items are told of in one message; further ones are counted. */
  static final int MOST_ITEMS = 20;

  private static final Duration KEPT = Duration.ofMinutes(5);

  /** So many items are kept in one record. */
  private static final int MOST_KEPT = 1_000;

  private static final Comparator<NotificationItem> ORDER =
      Comparator.comparing(NotificationItem::getKind)
          .thenComparing(NotificationItem::getDay, Comparator.nullsFirst(Comparator.naturalOrder()))
          .thenComparing(NotificationItem::getAbout);

  /** The kinds that a person wants to hear of at all. */
  static Set<NotificationKind> wanted(NotificationChoice choice) {
    return kinds(choice, EnumSet.of(NotificationFrequency.AT_ONCE, NotificationFrequency.DAILY));
  }

  private static Set<NotificationKind> kinds(
      NotificationChoice choice, Set<NotificationFrequency> frequencies) {
    Set<NotificationKind> kinds = EnumSet.noneOf(NotificationKind.class);
    choice.getWishes().stream()
        .filter(wish -> frequencies.contains(wish.getFrequency()))
        .map(NotificationWish::getKind)
        .forEach(kinds::add);
    return kinds;
  }

  /**
   * The messages without the items that are over, as far as that changes them. One that waits stays
   * whole until it is sent; what is noted as known stays for a while, because it is noted before
   * the choice that it belongs to is there.
   */
  List<NotificationMessage> withoutOver(
      List<NotificationMessage> before, Set<NotificationItem> now) {
    return before.stream()
        .filter(message -> message.getState() != NotificationState.WAITING)
        .filter(message -> isToBeSent(message) || message.getMadeAt().isBefore(at.minus(KEPT)))
        .filter(message -> !now.containsAll(message.getItems()))
        .map(
            message ->
                next(message)
                    .setItems(message.getItems().stream().filter(now::contains).toList())
                    .build())
        .toList();
  }

  /** A message is gone when nothing of it is left; one that was given up waits for somebody. */
  static boolean isOver(NotificationMessage message) {
    return message.getItems().isEmpty()
        && switch (message.getState()) {
          case KNOWN, SENT, WAITING -> true;
          case GIVEN_UP -> false;
        };
  }

  /**
   * New messages: one of what is told at once, one of what is told daily.
   *
   * @param dailyIsDue whether the hour of the daily message is past and it was not looked today
   */
  List<NotificationMessage> made(
      NotificationChoice choice,
      List<NotificationMessage> before,
      Set<NotificationItem> now,
      boolean dailyIsDue) {
    Set<NotificationItem> fresh = new HashSet<>(now);
    before.forEach(message -> message.getItems().forEach(fresh::remove));
    List<NotificationMessage> made = new ArrayList<>();
    if (isRoom(before)) {
      made.addAll(message(choice, fresh, NotificationFrequency.AT_ONCE));
    }
    if (dailyIsDue && !wasToldToday(before)) {
      made.addAll(message(choice, fresh, NotificationFrequency.DAILY));
    }
    return made;
  }

  private boolean isRoom(List<NotificationMessage> before) {
    Instant from = at.minus(1, ChronoUnit.MINUTES);
    return before.stream()
            .filter(MessagePlan::isToBeSent)
            .filter(message -> !message.getDaily() && message.getMadeAt().isAfter(from))
            .count()
        < mostInAMinute;
  }

  private boolean wasToldToday(List<NotificationMessage> before) {
    return before.stream()
        .filter(MessagePlan::isToBeSent)
        .anyMatch(message -> message.getDaily() && day(message.getMadeAt()).equals(day(at)));
  }

  private static boolean isToBeSent(NotificationMessage message) {
    return message.getState() != NotificationState.KNOWN;
  }

  private LocalDate day(Instant time) {
    return time.atZone(zone).toLocalDate();
  }

  private List<NotificationMessage> message(
      NotificationChoice choice, Set<NotificationItem> fresh, NotificationFrequency frequency) {
    Set<NotificationKind> kinds = kinds(choice, Set.of(frequency));
    List<NotificationItem> items =
        fresh.stream().filter(item -> kinds.contains(item.getKind())).sorted(ORDER).toList();
    if (items.isEmpty()) {
      return List.of();
    }
    int told = Math.min(MOST_ITEMS, items.size());
    List<NotificationMessage> made =
        new ArrayList<>(known(choice.getPersonId(), items.subList(told, items.size())));
    made.add(
        record(choice.getPersonId(), NotificationState.WAITING, items.subList(0, told))
            .setDaily(frequency == NotificationFrequency.DAILY)
            .setMore(items.size() - told)
            .build());
    return made;
  }

  /** Records of what a person is not told of, because it was so before or would be too much. */
  List<NotificationMessage> known(String personId, List<NotificationItem> items) {
    List<NotificationMessage> known = new ArrayList<>();
    for (int from = 0; from < items.size(); from += MOST_KEPT) {
      List<NotificationItem> part = items.subList(from, Math.min(items.size(), from + MOST_KEPT));
      known.add(record(personId, NotificationState.KNOWN, part).build());
    }
    return known;
  }

  private NotificationMessage.Builder record(
      String personId, NotificationState state, List<NotificationItem> items) {
    return NotificationMessage.newBuilder()
        .setMessageId(UUID.randomUUID().toString())
        .setPersonId(personId)
        .setRevision(0)
        .setState(state)
        .setDaily(false)
        .setItems(List.copyOf(items))
        .setMadeAt(at.truncatedTo(ChronoUnit.MILLIS))
        .setNextAttemptAt(at.truncatedTo(ChronoUnit.MILLIS));
  }

  /** The next revision of a message, with all as it was. */
  static NotificationMessage.Builder next(NotificationMessage message) {
    return NotificationMessage.newBuilder(message).setRevision(message.getRevision() + 1);
  }
}
