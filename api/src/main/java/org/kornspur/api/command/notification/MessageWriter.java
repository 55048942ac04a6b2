package org.kornspur.api.command.notification;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.stream.Collectors;
import org.kornspur.api.query.VisibleAudience;
import org.kornspur.api.query.plan.PlanWatch;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.FloweringDue;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.contract.NotificationChoice;
import org.kornspur.contract.NotificationItem;
import org.kornspur.contract.NotificationKind;
import org.kornspur.contract.NotificationMessage;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictState;

/**
 * Writes a message for the one who gets it, in their language, from what is so and what they may
 * see when it is sent. No person is named in it.
 */
@ApplicationScoped
public class MessageWriter {
  @Inject ReadModel readModel;
  @Inject FactReadModel facts;
  @Inject PlanWatch plans;
  @Inject VisibilityService visibilityService;
  @Inject NotificationSettings settings;

  /** What all lines of one message are written with. */
  private record Pen(
      Receiver receiver,
      PageTexts texts,
      LocalFormat form,
      DomainTerms terms,
      FirstReasonWords words) {

    String name(Subject subject) {
      return words.verdicts().words().named(subject);
    }

    String gates(LotStanding standing, BiPredicate<GateVerdict, LotStanding> wanted) {
      return standing.getVerdicts().stream()
          .filter(verdict -> verdict.getState() == VerdictState.OWED)
          .filter(verdict -> wanted.test(verdict, standing))
          .map(verdict -> terms.gate(verdict.getGate()))
          .distinct()
          .collect(Collectors.joining(", "));
    }
  }

  /** The message; empty where nothing of it is left that the receiver may see. */
  Optional<WrittenMessage> write(
      NotificationMessage message, NotificationChoice choice, Receiver receiver) {
    Language language = Language.of(choice.getLanguage()).orElseGet(Language::ofSite);
    Pen pen = pen(receiver, language);
    List<WrittenMessage.Line> lines =
        message.getItems().stream().flatMap(item -> line(item, pen).stream()).toList();
    if (lines.isEmpty()) {
      return Optional.empty();
    }
    int all = lines.size() + message.getMore();
    return Optional.of(
        new WrittenMessage(
            message.getMessageId(),
            message.getMadeAt(),
            language.tag(),
            all == 1
                ? pen.texts().of("titleOfOne", kind(lines.get(0), pen))
                : pen.texts().of("titleOfMany", pen.form().count(all)),
            lines,
            message.getMore(),
            message.getMore() == 0
                ? ""
                : pen.texts().of("andMore", pen.form().count(message.getMore())),
            pen.texts().of("caution"),
            address("/notifications")));
  }

  private static String kind(WrittenMessage.Line line, Pen pen) {
    return pen.texts().of("kind", line.kind());
  }

  private Pen pen(Receiver receiver, Language language) {
    LocalFormat form = new LocalFormat(language, ZoneId.systemDefault());
    return new Pen(
        receiver,
        PageTexts.in(language, "notifications"),
        form,
        DomainTerms.in(language),
        new FirstReasonWords(
            new VerdictWords(
                new ReaderWords(
                    new VisibleAudience(
                        form, false, receiver::visibility, visibilityService, facts)))));
  }

  private Optional<WrittenMessage.Line> line(NotificationItem item, Pen pen) {
    if (!pen.receiver().mayHearOf(item.getKind())) {
      return Optional.empty();
    }
    return switch (item.getKind()) {
      case UNKNOWN -> Optional.empty();
      case QUARANTINED -> refused(item, pen);
      case PLAN_SHORT -> plan(item, pen);
      case NOT_FIT, RELEASE_SUSPENDED, EVIDENCE_DUE, VISIT_DUE -> {
        Subject subject = Subject.parse(item.getAbout());
        yield Optional.of(subject)
            .filter(pen.receiver()::sees)
            .flatMap(readModel::standing)
            .map(standing -> sentence(item, subject, standing, pen))
            .map(
                text ->
                    new WrittenMessage.Line(
                        item.getKind().name(),
                        visibilityService.redacted(pen.receiver().visibility(), text),
                        address(Addresses.pageOf(subject))));
      }
    };
  }

  private static String sentence(
      NotificationItem item, Subject subject, LotStanding standing, Pen pen) {
    return switch (item.getKind()) {
      case NOT_FIT -> pen.words().sentence(standing);
      case RELEASE_SUSPENDED -> pen.texts().of("suspended", pen.words().sentence(standing));
      case EVIDENCE_DUE ->
          pen.texts()
              .of(
                  "evidenceDue",
                  pen.name(subject),
                  pen.form().day(item.getDay()),
                  pen.gates(
                      standing,
                      (verdict, of) ->
                          FloweringDue.of(verdict.getGate(), of)
                              .filter(due -> due.day().equals(item.getDay()))
                              .isPresent()));
      case VISIT_DUE ->
          pen.texts()
              .of(
                  "visitDue",
                  pen.name(subject),
                  pen.form().day(standing.getFloweringTo()),
                  pen.gates(
                      standing,
                      (verdict, of) ->
                          FloweringDue.of(verdict.getGate(), of)
                              .filter(due -> !due.beforeFlowering())
                              .isPresent()));
      case QUARANTINED, PLAN_SHORT, UNKNOWN ->
          throw new IllegalArgumentException(item.getKind() + " is not about a crop or lot");
    };
  }

  /** What is short now, which may be another quantity than when it was noticed. */
  private Optional<WrittenMessage.Line> plan(NotificationItem item, Pen pen) {
    return plans.lessMet().stream()
        .filter(one -> one.key().equals(item.getAbout()))
        .findFirst()
        .map(
            one ->
                new WrittenMessage.Line(
                    item.getKind().name(),
                    pen.texts()
                            .of(
                                "planShort",
                                one.plan().getName(),
                                one.wanted().hybridId(),
                                one.wanted().year(),
                                pen.form().kg(one.wanted().kg() - one.metNowKg()),
                                pen.form().kg(one.metNowKg()),
                                pen.form().kg(one.metThenKg()))
                        + one.remedies().stream()
                            .map(remedy -> " " + pen.words().verdicts().words().plain(remedy))
                            .collect(Collectors.joining()),
                    address("/plan/" + Addresses.part(one.plan().getPlanId()))));
  }

  /** Says nothing of what was sent: it may hold anything. */
  private Optional<WrittenMessage.Line> refused(NotificationItem item, Pen pen) {
    Set<String> senders = readModel.quarantine().senders(item.getAbout());
    boolean isSeen =
        pen.receiver().visibility().isWhole()
            || senders.contains(pen.receiver().caller().personId());
    return readModel
        .entry(item.getAbout())
        .filter(entry -> isSeen && entry.getState() == QuarantineState.HELD)
        .map(QuarantineEntry::getReceivedAt)
        .map(
            received ->
                new WrittenMessage.Line(
                    NotificationKind.QUARANTINED.name(),
                    pen.texts().of("quarantined", pen.form().minute(received)),
                    address(Addresses.page(Addresses.ofEntry(item.getAbout())))));
  }

  private String address(String path) {
    return settings.publicAddress().replaceAll("/+$", "") + path;
  }
}
