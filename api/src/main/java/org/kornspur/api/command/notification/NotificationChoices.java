package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.readmodel.NotificationReadModel;
import org.kornspur.api.security.Caller;
import org.kornspur.api.text.Language;
import org.kornspur.contract.IssuedRoles;
import org.kornspur.contract.NotificationChannel;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationItem;
import org.kornspur.contract.NotificationKind;
import org.kornspur.contract.NotificationWish;

/**
 * Keeps what persons want to hear of. What is so at that moment is noted as known, so that only
 * what becomes so later is told.
 */
@ApplicationScoped
public class NotificationChoices {
  private static final Duration SAME_AGAIN = Duration.ofHours(1);

  @Inject ProcessorsClient processors;
  @Inject NotificationReadModel readModel;
  @Inject CurrentEvents currentEvents;
  @Inject Receivers receivers;
  @Inject MessageStore keeping;
  @Inject MailSender mail;
  @Inject WebhookSecrets secrets;
  @Inject AddressConfirmation confirmation;
  @Inject NotificationSettings settings;
  private final Clock clock = Clock.tickMillis(ZoneOffset.UTC);

  /** The kinds of events that a person may hear of in their roles. */
  public List<NotificationKind> kindsFor(Caller caller) {
    Receiver receiver = receivers.of(caller);
    return Arrays.stream(NotificationKind.values()).filter(receiver::mayHearOf).toList();
  }

  /** What a person chose; empty for one who wants nothing. */
  public Optional<NotificationChoice> of(Caller caller) {
    return readModel.index().choice(caller.personId());
  }

  /**
   * Keeps what a person wants. Who wants nothing is forgotten, with the address.
   *
   * @return the secret of a webhook that had none, to be shown once; else empty
   * @throws ApiProblem if anything asked is wrong
   */
  public Optional<String> save(Caller caller, RequestedChoice.Form form, Language language) {
    List<NotificationKind> kinds = kindsFor(caller);
    RequestedChoice asked =
        RequestedChoice.read(
            form, language, kinds, mail.isSetUp(), settings.notifications().privateAddresses());
    Optional<NotificationChoice> before = of(caller);
    if (!asked.wantsAny()) {
      before.ifPresent(one -> forget(one.getPersonId()));
      return Optional.empty();
    }
    boolean hasSecret =
        before.filter(one -> one.getChannel() == NotificationChannel.WEBHOOK).isPresent();
    NotificationChoice choice =
        choice(
            caller,
            asked,
            hasSecret ? before.orElseThrow().getSecretId() : WebhookSecrets.newId(),
            asked.channel() == NotificationChannel.WEBHOOK || isConfirmed(before, asked.address()));
    if (!choice.getAddressConfirmed()) {
      confirmation.send(choice);
    }
    noteWhatIsKnown(caller, before, choice);
    keep(NotificationChoice.newBuilder(choice).setChosenAt(clock.instant()).build());
    return hasSecret || choice.getChannel() == NotificationChannel.EMAIL
        ? Optional.empty()
        : Optional.of(secrets.of(choice));
  }

  /**
   * Takes the code that was sent to the address; only what becomes so from then on is told.
   *
   * @throws ApiProblem if it is not the code
   */
  public void confirm(Caller caller, Optional<String> code) {
    unconfirmed(caller)
        .ifPresent(
            choice -> {
              confirmation.require(choice, code);
              noteWhatIsKnown(caller, Optional.empty(), choice);
              keep(
                  NotificationChoice.newBuilder(choice)
                      .setAddressConfirmed(true)
                      .setChosenAt(clock.instant())
                      .build());
            });
  }

  /**
   * Sends the code once more.
   *
   * @throws ApiProblem if the mail server does not take it, or too many were sent
   */
  public void sendCodeAgain(Caller caller) {
    unconfirmed(caller).ifPresent(confirmation::send);
  }

  private Optional<NotificationChoice> unconfirmed(Caller caller) {
    return of(caller).filter(choice -> !choice.getAddressConfirmed());
  }

  /** Takes over what the latest token says of who chose, once an hour where it says the same. */
  void note(Caller caller) {
    if (receivers.areKeptHere()) {
      return;
    }
    of(caller)
        .ifPresent(
            choice ->
                receivers
                    .issued(caller)
                    .filter(issued -> isNews(issued, choice.getIssued()))
                    .ifPresent(
                        issued ->
                            keep(NotificationChoice.newBuilder(choice).setIssued(issued).build())));
  }

  private static boolean isNews(IssuedRoles now, IssuedRoles before) {
    return before == null
        || !before.getRoles().equals(now.getRoles())
        || !Objects.equals(before.getEnterpriseId(), now.getEnterpriseId())
        || before.getSaidAt().plus(SAME_AGAIN).isBefore(now.getSaidAt());
  }

  /** Makes another secret, with which all further messages are signed; empty without a webhook. */
  public Optional<String> renewSecret(Caller caller) {
    Optional<NotificationChoice> renewed =
        of(caller)
            .filter(one -> one.getChannel() == NotificationChannel.WEBHOOK)
            .map(
                one ->
                    NotificationChoice.newBuilder(one)
                        .setSecretId(WebhookSecrets.newId())
                        .setChosenAt(clock.instant())
                        .build());
    renewed.ifPresent(this::keep);
    return renewed.map(secrets::of);
  }

  /** Forgets what a person wants, with the address. */
  public void forget(String personId) {
    processors.forgetChoice(personId);
    readModel.index().removeChoice(personId);
  }

  private void keep(NotificationChoice choice) {
    processors.keep(choice);
    // also here at once, so that who chose finds it before the topic is read
    readModel.index().put(choice);
  }

  private static boolean isConfirmed(Optional<NotificationChoice> before, String address) {
    return before
        .filter(one -> one.getChannel() == NotificationChannel.EMAIL)
        .filter(one -> one.getAddress().equals(address))
        .filter(NotificationChoice::getAddressConfirmed)
        .isPresent();
  }

  private NotificationChoice choice(
      Caller caller, RequestedChoice asked, String secretId, boolean isConfirmed) {
    return NotificationChoice.newBuilder()
        .setPersonId(caller.personId())
        .setLanguage(asked.language().tag())
        .setChannel(asked.channel())
        .setAddress(asked.address())
        .setSecretId(secretId)
        .setWishes(
            asked.wishes().entrySet().stream()
                .map(wish -> new NotificationWish(wish.getKey(), wish.getValue()))
                .toList())
        .setDaysAhead(asked.daysAhead())
        .setChosenAt(clock.instant())
        .setAddressConfirmed(isConfirmed)
        .setIssued(receivers.issued(caller).orElse(null))
        .build();
  }

  /** Of kinds that were wanted before, what is not told yet still is; a wider span is like new. */
  private void noteWhatIsKnown(
      Caller caller, Optional<NotificationChoice> before, NotificationChoice choice) {
    Set<NotificationKind> kinds = MessagePlan.wanted(choice);
    before.ifPresent(
        earlier -> {
          Set<NotificationKind> wanted = MessagePlan.wanted(earlier);
          if (earlier.getDaysAhead() < choice.getDaysAhead()) {
            wanted.remove(NotificationKind.EVIDENCE_DUE);
          }
          kinds.removeAll(wanted);
        });
    Set<NotificationItem> known =
        new HashSet<>(currentEvents.of(receivers.of(caller), kinds, choice.getDaysAhead()));
    readModel
        .index()
        .messagesTo(caller.personId())
        .forEach(message -> message.getItems().forEach(known::remove));
    new MessagePlan(
            clock.instant(), ZoneId.systemDefault(), settings.notifications().messagesPerMinute())
        .known(caller.personId(), List.copyOf(known))
        .forEach(keeping::keep);
  }
}
