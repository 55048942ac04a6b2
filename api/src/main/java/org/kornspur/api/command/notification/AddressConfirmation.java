package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestReason;
import org.kornspur.api.security.limit.RateLimiter;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.PageTexts;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.ingest.intake.Problem;

/**
 * Sends a code to an e-mail address, with which its owner shows that mail arrives: one wrong letter
 * would tell a stranger of somebody's lots. The code is derived and kept nowhere.
 */
@ApplicationScoped
public class AddressConfirmation {
  private static final int MOST_MAILS = 5;
  private static final Duration WITHIN = Duration.ofHours(1);

  @Inject MailSender mail;
  @Inject WebhookSecrets secrets;
  @Inject NotificationSettings settings;
  private final RateLimiter mails = new RateLimiter(MOST_MAILS, WITHIN);
  private final Clock clock = Clock.tickMillis(ZoneOffset.UTC);

  /**
   * Sends the code for a choice.
   *
   * @throws ApiProblem if the mail server does not take it, or too many were sent
   */
  void send(NotificationChoice choice) {
    if (mails.take(choice.getPersonId()).isPresent()) {
      throw wrong(
          "mailAddress", choice.getAddress(), new ParameterProblem.TooManyCodes(MOST_MAILS));
    }
    try {
      mail.send(message(choice), choice.getAddress());
    } catch (DeliveryFailed failed) {
      throw wrong(
          "mailAddress", choice.getAddress(), new ParameterProblem.NotDelivered(failed.detail()));
    }
  }

  /**
   * Checks what a person typed.
   *
   * @throws ApiProblem if it is not the code
   */
  void require(NotificationChoice choice, Optional<String> typed) {
    byte[] given =
        typed
            .map(String::strip)
            .orElse("")
            .toLowerCase(Locale.ROOT)
            .getBytes(StandardCharsets.UTF_8);
    byte[] code = secrets.codeOf(choice).getBytes(StandardCharsets.UTF_8);
    if (!MessageDigest.isEqual(given, code)) {
      throw wrong("code", typed.orElse(""), new ParameterProblem.WrongCode());
    }
  }

  private WrittenMessage message(NotificationChoice choice) {
    PageTexts texts =
        PageTexts.in(
            Language.of(choice.getLanguage()).orElseGet(Language::ofSite), "notifications");
    String page = settings.publicAddress() + "/notifications";
    return new WrittenMessage(
        UUID.randomUUID().toString(),
        clock.instant(),
        choice.getLanguage(),
        texts.of("codeTitle"),
        List.of(
            new WrittenMessage.Line("CODE", texts.of("codeText", secrets.codeOf(choice)), page)),
        0,
        "",
        texts.of("codeCaution"),
        page);
  }

  private static ApiProblem wrong(String field, String given, RequestReason why) {
    return new ApiProblem(ProblemKind.INVALID_PARAMETER, List.of(Problem.of(field, given, why)));
  }
}
