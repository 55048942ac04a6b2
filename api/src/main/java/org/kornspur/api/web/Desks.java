package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.command.fact.QuarantineDecisions;
import org.kornspur.api.http.QuarantineFilter;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.StandingSentences;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.FloweringDue;
import org.kornspur.api.readmodel.QuarantineRow;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.readmodel.Worklist;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.PageTexts;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictState;

/** Says what needs quality now among all standings. */
@RequestScoped
public class Desks {
  private static final int SHOWN = 20;
  private static final int SHOWN_REFUSED = 5;

  @Inject VisibleData data;
  @Inject QuarantineDecisions quarantine;
  @Inject Framing framing;
  @Inject RequestWords requestWords;
  @Inject StandingSentences sentences;

  /** The desk for what a question leaves; of states and gates it asks itself. */
  Desk of(StandingQuery asked) {
    Worklist waiting = data.worklist(anyStanding(asked), SHOWN);
    List<Desk.Cause> causes = waiting.causes().stream().map(this::cause).toList();
    List<Desk.Owed> owed = owed(waiting.owed());
    ResultPage<QuarantineRow> refused =
        quarantine.find(new QuarantineFilter.Query(Set.of(QuarantineState.HELD), 1, SHOWN_REFUSED));
    return new Desk(
        releases(waiting.suspended()),
        more(waiting.suspended()),
        causes,
        waiting.allCauses() - causes.size(),
        owed,
        waiting.allOwed() - owed.size(),
        releases(waiting.proposed()),
        more(waiting.proposed()),
        refused.total(),
        refused.items().stream().map(this::refused).toList());
  }

  private static StandingQuery anyStanding(StandingQuery asked) {
    return new StandingQuery(
        EnumSet.of(Subject.Kind.LOT, Subject.Kind.CROP),
        Set.of(),
        Set.of(),
        asked.hybridId(),
        asked.seedId(),
        asked.category(),
        asked.cropYear(),
        asked.holder(),
        asked.rulebookId(),
        Optional.empty(),
        Optional.empty(),
        false,
        asked.idPrefix(),
        StandingQuery.Order.WORST,
        1,
        SHOWN);
  }

  private static int more(ResultPage<?> slice) {
    return slice.total() - slice.items().size();
  }

  private Desk.Refused refused(QuarantineRow row) {
    return new Desk.Refused(
        Addresses.ofEntry(row.entryId()).substring(Addresses.ROOT.length()),
        row.place(),
        row.receivedAt(),
        ProblemLanguage.words(framing.language()).summary(row.problems()));
  }

  private Desk.Cause cause(Worklist.Cause cause) {
    Subject origin = cause.origin().subject();
    List<GateVerdict> wrong =
        data.read(cause.standing()).getVerdicts().stream()
            .filter(verdict -> verdict.getState() == VerdictState.NOT_MET)
            .toList();
    return new Desk.Cause(
        sentences.name(origin),
        PageAddresses.of(origin),
        wrong.stream()
            .map(verdict -> trade().gate(verdict.getGate()))
            .distinct()
            .collect(Collectors.joining("; ")),
        wrong.isEmpty()
            ? Optional.empty()
            : Optional.of(new RawString(requestWords.verdicts().lineHtml(wrong.get(0)))),
        cause.origin().changedAt(),
        cause.lots(),
        cause.leftKg(),
        cause.customersKg());
  }

  private List<Desk.Owed> owed(List<Worklist.Owed> soonestFirst) {
    LocalDate today = LocalDate.now(framing.form().zone());
    return soonestFirst.stream().flatMap(owed -> pieces(owed, today)).limit(SHOWN).toList();
  }

  private Stream<Desk.Owed> pieces(Worklist.Owed owed, LocalDate today) {
    LotStanding standing = data.read(owed.standing());
    return standing.getVerdicts().stream()
        .filter(verdict -> owed.until().holds(verdict, standing))
        .map(verdict -> piece(owed.until().subject(), owed.until().due(), verdict, today))
        .sorted(Comparator.comparing(Desk.Owed::gate));
  }

  private Desk.Owed piece(
      Subject subject, Optional<FloweringDue> due, GateVerdict verdict, LocalDate today) {
    PageTexts texts = framing.texts("desk");
    return new Desk.Owed(
        sentences.name(subject),
        PageAddresses.of(subject),
        trade().gate(verdict.getGate()),
        new RawString(requestWords.verdicts().evidenceHtml(verdict)),
        due.map(FloweringDue::day),
        due.map(one -> words(one, today, texts))
            .orElse(
                FloweringDue.isSeenOnTheField(verdict.getGate(), subject)
                    ? texts.of("floweringUnknown")
                    : texts.of("beforeRelease")),
        due.map(one -> one.isUrgent(today)).orElse(false));
  }

  private String words(FloweringDue due, LocalDate today, PageTexts texts) {
    long left = due.daysLeft(today);
    String written = framing.form().day(due.day());
    String days = framing.form().count(left);
    if (due.beforeFlowering()) {
      return left >= 0 ? texts.of("flowersFrom", written, days) : texts.of("flowersSince", written);
    }
    return left >= 0 ? texts.of("flowersUntil", written, days) : texts.of("floweredUntil", written);
  }

  private List<Desk.Suspended> releases(ResultPage<Worklist.Release> releases) {
    return releases.items().stream()
        .map(
            release -> {
              LotStanding standing = data.read(release.standing());
              Subject lot = release.lot().subject();
              return new Desk.Suspended(
                  lot.id(),
                  PageAddresses.of(lot),
                  Optional.ofNullable(standing.getRelease().getSince()),
                  requestWords.verdicts().whyHtml(standing.getRelease()).map(RawString::new));
            })
        .toList();
  }

  private DomainTerms trade() {
    return DomainTerms.in(framing.language());
  }
}
