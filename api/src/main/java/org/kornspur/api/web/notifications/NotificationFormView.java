package org.kornspur.api.web.notifications;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.api.command.notification.RequestedChoice;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.contract.NotificationChannel;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationFrequency;
import org.kornspur.contract.NotificationKind;

/**
 * The form of a person's choice as it is shown.
 *
 * @param kinds what the person may hear of; none for who may hear of nothing
 * @param wishes frequency by kind; what is not in it is off
 * @param hasWebhook whether messages go to a webhook now, so that it has a secret
 * @param unconfirmed whether the e-mail address is still to be confirmed
 * @param refusals why the last form was not taken, each in a sentence
 */
public record NotificationFormView(
    List<NotificationKind> kinds,
    Map<String, String> wishes,
    String channel,
    String mailAddress,
    String webAddress,
    String daysAhead,
    boolean hasWebhook,
    boolean mailIsSetUp,
    boolean unconfirmed,
    List<String> refusals) {

  static NotificationFormView of(
      List<NotificationKind> kinds, Optional<NotificationChoice> chosen, boolean mailIsSetUp) {
    Optional<NotificationChannel> channel = chosen.map(NotificationChoice::getChannel);
    boolean hasWebhook = channel.filter(NotificationChannel.WEBHOOK::equals).isPresent();
    String address = chosen.map(NotificationChoice::getAddress).orElse("");
    return new NotificationFormView(
        kinds,
        chosen.stream()
            .flatMap(one -> one.getWishes().stream())
            .collect(
                Collectors.toMap(
                    wish -> wish.getKind().name(), wish -> wish.getFrequency().name())),
        channel
            .orElse(mailIsSetUp ? NotificationChannel.EMAIL : NotificationChannel.WEBHOOK)
            .name(),
        hasWebhook ? "" : address,
        hasWebhook ? address : "",
        Integer.toString(
            chosen.map(NotificationChoice::getDaysAhead).orElse(RequestedChoice.USUAL_DAYS)),
        hasWebhook,
        mailIsSetUp,
        chosen.filter(one -> !one.getAddressConfirmed()).isPresent(),
        List.of());
  }

  /** With what was typed, and why it was not taken. */
  NotificationFormView refused(FormFields typed, List<String> why) {
    return new NotificationFormView(
        kinds,
        kinds.stream()
            .map(Enum::name)
            .collect(Collectors.toMap(kind -> kind, kind -> typed.first(kind).orElse(""))),
        typed.first("channel").orElse(channel),
        typed.first("mailAddress").orElse(""),
        typed.first("webAddress").orElse(""),
        typed.first("daysAhead").orElse(""),
        hasWebhook,
        mailIsSetUp,
        unconfirmed,
        why);
  }

  /** With why something else was not done. */
  NotificationFormView refused(List<String> why) {
    return new NotificationFormView(
        kinds,
        wishes,
        channel,
        mailAddress,
        webAddress,
        daysAhead,
        hasWebhook,
        mailIsSetUp,
        unconfirmed,
        why);
  }

  public List<NotificationFrequency> frequencies() {
    return Arrays.asList(NotificationFrequency.values());
  }

  public boolean wants(NotificationKind kind, NotificationFrequency frequency) {
    return wishes
        .getOrDefault(kind.name(), NotificationFrequency.OFF.name())
        .equals(frequency.name());
  }

  public int mostDays() {
    return RequestedChoice.MOST_DAYS;
  }

  public boolean isByMail() {
    return channel.equals(NotificationChannel.EMAIL.name());
  }
}
