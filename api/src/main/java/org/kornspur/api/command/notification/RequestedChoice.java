package org.kornspur.api.command.notification;

import java.net.URI;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestReason;
import org.kornspur.api.text.Language;
import org.kornspur.contract.NotificationChannel;
import org.kornspur.contract.NotificationFrequency;
import org.kornspur.contract.NotificationKind;
import org.kornspur.ingest.intake.Problem;

/**
 * What a person asks for in the form of notifications, read and checked before anything is kept.
 *
 * @param wishes by kind; what is not named is off
 */
public record RequestedChoice(
    Language language,
    NotificationChannel channel,
    String address,
    Map<NotificationKind, NotificationFrequency> wishes,
    int daysAhead) {
  public static final int MOST_DAYS = 60;
  public static final int USUAL_DAYS = 7;

  /**
   * Gives the text of a field of the form; empty where it was not sent.
   *
   * @see #read
   */
  public interface Form {
    Optional<String> text(String field);
  }

  /** Reads a form, and notes all that is wrong with it. */
  static final class Reader {
    private final Form form;
    private final List<Problem> problems = new ArrayList<>();

    private Reader(Form form) {
      this.form = form;
    }

    private String text(String field) {
      return form.text(field).map(String::strip).orElse("");
    }

    private <E extends Enum<E>> E constant(String field, E[] constants, E otherwise) {
      return Arrays.stream(constants)
          .filter(one -> one.name().equals(text(field)))
          .findFirst()
          .orElseGet(
              () -> {
                note(
                    field,
                    new ParameterProblem.OneOf(Arrays.stream(constants).map(Enum::name).toList()));
                return otherwise;
              });
    }

    private int days() {
      String text = text("daysAhead");
      if (text.matches("[0-9]{1,3}")) {
        int days = Integer.parseInt(text);
        if (days >= 1 && days <= MOST_DAYS) {
          return days;
        }
      }
      note("daysAhead", new ParameterProblem.WholeNumber(1, MOST_DAYS));
      return USUAL_DAYS;
    }

    private void note(String field, RequestReason why) {
      problems.add(Problem.of(field, text(field), why));
    }
  }

  /**
   * Reads what was asked.
   *
   * @param mailIsSetUp whether e-mail can be sent
   * @param privateAddresses whether webhooks may be in the own network
   * @throws ApiProblem that says all that is wrong
   */
  static RequestedChoice read(
      Form form,
      Language language,
      List<NotificationKind> kinds,
      boolean mailIsSetUp,
      boolean privateAddresses) {
    Reader reader = new Reader(form);
    Map<NotificationKind, NotificationFrequency> wishes = new EnumMap<>(NotificationKind.class);
    for (NotificationKind kind : kinds) {
      wishes.put(
          kind,
          reader.constant(kind.name(), NotificationFrequency.values(), NotificationFrequency.OFF));
    }
    NotificationChannel channel =
        reader.constant("channel", NotificationChannel.values(), NotificationChannel.EMAIL);
    boolean wantsAny = wishes.values().stream().anyMatch(wish -> wish != NotificationFrequency.OFF);
    String field = channel == NotificationChannel.EMAIL ? "mailAddress" : "webAddress";
    if (wantsAny) {
      addressProblem(channel, reader.text(field), mailIsSetUp, privateAddresses)
          .ifPresent(why -> reader.note(field, why));
    }
    RequestedChoice asked =
        new RequestedChoice(
            language, channel, reader.text(field), Map.copyOf(wishes), reader.days());
    if (!reader.problems.isEmpty()) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, reader.problems);
    }
    return asked;
  }

  private static Optional<RequestReason> addressProblem(
      NotificationChannel channel, String address, boolean mailIsSetUp, boolean privateAddresses) {
    return switch (channel) {
      case EMAIL -> {
        if (!mailIsSetUp) {
          yield Optional.of(new ParameterProblem.NoMailServer());
        }
        yield MailSender.isAddress(address)
            ? Optional.empty()
            : Optional.of(new ParameterProblem.NoMailAddress());
      }
      case WEBHOOK -> {
        Optional<URI> uri = WebhookTarget.uri(address);
        if (uri.isEmpty()) {
          yield Optional.of(new ParameterProblem.NoWebAddress());
        }
        yield isOpen(uri.get(), privateAddresses)
            ? Optional.empty()
            : Optional.of(new ParameterProblem.ClosedWebAddress());
      }
    };
  }

  /** A name without an address now may have one later; it is looked at again at each message. */
  private static boolean isOpen(URI uri, boolean privateAddresses) {
    try {
      WebhookTarget.of(uri, privateAddresses);
      return true;
    } catch (DeliveryFailed failed) {
      return switch (failed.why()) {
        case ADDRESS_REFUSED -> false;
        case NOT_REACHED, NOT_TAKEN, NOT_SET_UP, UNKNOWN -> true;
      };
    }
  }

  boolean wantsAny() {
    return wishes.values().stream().anyMatch(wish -> wish != NotificationFrequency.OFF);
  }
}
