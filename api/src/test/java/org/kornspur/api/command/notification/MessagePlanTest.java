package org.kornspur.api.command.notification;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.NotificationChannel;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationFrequency;
import org.kornspur.contract.NotificationItem;
import org.kornspur.contract.NotificationKind;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.NotificationState;
import org.kornspur.contract.NotificationWish;

/** What becomes of the messages to one person, look after look. */
class MessagePlanTest {
  private static final Instant START = Instant.parse("2026-05-30T10:00:00Z");
  private static final NotificationChoice CHOICE =
      new NotificationChoice(
          "grower",
          "en",
          NotificationChannel.EMAIL,
          "grower@farm.example",
          "s",
          List.of(
              new NotificationWish(NotificationKind.NOT_FIT, NotificationFrequency.AT_ONCE),
              new NotificationWish(NotificationKind.QUARANTINED, NotificationFrequency.DAILY),
              new NotificationWish(NotificationKind.VISIT_DUE, NotificationFrequency.OFF)),
          7,
          START,
          true,
          null);

  private final List<NotificationMessage> messages = new ArrayList<>();
  private Instant now = START;

  @Test
  void whatBecameSoIsToldOnce() {
    look(false, notFit("A"));
    assertThat(waiting())
        .singleElement()
        .satisfies(one -> assertThat(told(one)).containsExactly("A"));
    look(false, notFit("A"));
    assertThat(waiting()).hasSize(1);

    look(false, notFit("A"), notFit("B"));
    assertThat(waiting()).hasSize(2);
    assertThat(told(waiting().get(1))).containsExactly("B");
  }

  @Test
  void whatIsOverIsToldAgainWhenItComesAgain() {
    look(false, notFit("A"));
    sendAll();
    look(false);
    assertThat(messages).isEmpty();
    look(false, notFit("A"));
    assertThat(waiting()).hasSize(1);
  }

  @Test
  void whatWasSoBeforeIsNotTold() {
    messages.addAll(plan().known("grower", List.of(notFit("A"), notFit("B"))));
    look(false, notFit("A"), notFit("B"));
    assertThat(waiting()).isEmpty();
    look(false, notFit("B"), notFit("C"));
    assertThat(waiting())
        .singleElement()
        .satisfies(one -> assertThat(told(one)).containsExactly("C"));
  }

  /** It is noted before the choice, without which nothing is wanted. */
  @Test
  void whatIsKnownIsNotForgottenBeforeTheChoiceIsThere() {
    messages.addAll(plan().known("grower", List.of(notFit("A"))));
    now = now.plusSeconds(2);
    look(false);
    assertThat(messages).hasSize(1);
    now = now.plusSeconds(600);
    look(false);
    assertThat(messages).isEmpty();
  }

  @Test
  void aMessageTellsOfTwentyAndCountsTheOthersWhichAreNotToldLater() {
    NotificationItem[] many =
        IntStream.range(0, 3_000).mapToObj(i -> notFit("L" + i)).toArray(NotificationItem[]::new);
    look(false, many);
    assertThat(waiting()).hasSize(1);
    assertThat(waiting().get(0).getItems()).hasSize(MessagePlan.MOST_ITEMS);
    assertThat(waiting().get(0).getMore()).isEqualTo(3_000 - MessagePlan.MOST_ITEMS);
    now = now.plusSeconds(600);
    look(false, many);
    assertThat(waiting()).hasSize(1);
  }

  @Test
  void noMoreMessagesGoOutInAMinuteThanAreAllowed() {
    List<NotificationItem> items = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      items.add(notFit("L" + i));
      look(false, items.toArray(NotificationItem[]::new));
      now = now.plusSeconds(2);
    }
    assertThat(waiting()).hasSize(3);

    now = now.plusSeconds(60);
    look(false, items.toArray(NotificationItem[]::new));
    assertThat(waiting()).hasSize(4);
    assertThat(told(waiting().get(3))).containsExactly("L3", "L4", "L5", "L6", "L7");
  }

  @Test
  void theDailyMessageComesOnceADayWhenItIsDue() {
    look(false, refused("Q1"));
    assertThat(waiting()).isEmpty();
    look(true, refused("Q1"));
    assertThat(waiting()).singleElement().satisfies(one -> assertThat(one.getDaily()).isTrue());
    look(true, refused("Q1"), refused("Q2"));
    assertThat(waiting()).hasSize(1);
    now = now.plusSeconds(24 * 3600);
    look(true, refused("Q1"), refused("Q2"));
    assertThat(waiting()).hasSize(2);
    assertThat(told(waiting().get(1))).containsExactly("Q2");
  }

  @Test
  void whatIsOffIsNotTold() {
    look(true, new NotificationItem(NotificationKind.VISIT_DUE, "crop:C", null));
    assertThat(waiting()).isEmpty();
  }

  @Test
  void aMessageThatWaitsStaysWholeAndOneGivenUpStaysUntilSomebodySettlesIt() {
    look(false, notFit("A"));
    look(false);
    assertThat(waiting()).hasSize(1);
    messages.replaceAll(one -> MessagePlan.next(one).setState(NotificationState.GIVEN_UP).build());
    look(false);
    assertThat(messages).hasSize(1);
    look(false, notFit("A"));
    assertThat(waiting()).hasSize(1);
  }

  private MessagePlan plan() {
    return new MessagePlan(now, ZoneId.of("Europe/Berlin"), 3);
  }

  /** As the sender does it. */
  private void look(boolean dailyIsDue, NotificationItem... items) {
    Set<NotificationItem> all = new HashSet<>(Arrays.asList(items));
    List<NotificationMessage> before = List.copyOf(messages);
    List<NotificationMessage> changed = new ArrayList<>(plan().withoutOver(before, all));
    changed.addAll(plan().made(CHOICE, before, all, dailyIsDue));
    for (NotificationMessage one : changed) {
      messages.removeIf(
          earlier ->
              earlier.getMessageId().equals(one.getMessageId())
                  && earlier.getRevision() < one.getRevision());
      if (!MessagePlan.isOver(one)) {
        messages.add(one);
      }
    }
  }

  private void sendAll() {
    messages.replaceAll(one -> MessagePlan.next(one).setState(NotificationState.SENT).build());
  }

  private List<NotificationMessage> waiting() {
    return messages.stream().filter(one -> one.getState() == NotificationState.WAITING).toList();
  }

  private static Set<String> told(NotificationMessage message) {
    return message.getItems().stream()
        .map(item -> item.getAbout().replace("lot:", ""))
        .collect(Collectors.toCollection(java.util.LinkedHashSet::new));
  }

  private static NotificationItem notFit(String lot) {
    return new NotificationItem(NotificationKind.NOT_FIT, "lot:" + lot, null);
  }

  private static NotificationItem refused(String entry) {
    return new NotificationItem(NotificationKind.QUARANTINED, entry, null);
  }
}
