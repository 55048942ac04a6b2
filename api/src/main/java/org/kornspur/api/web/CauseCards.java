package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.CauseKey;
import org.kornspur.api.readmodel.CauseNotes;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.readmodel.Worklist;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.VerdictState;

/** Writes causes as cards, for who asks. */
@RequestScoped
public class CauseCards {
  /** Crops that are looked at to find the nearest one; of a source there are seldom more. */
  private static final int MOST_LOOKED_AT = 100;

  @Inject VisibleData data;
  @Inject ReadModel readModel;
  @Inject StandingHeadlines headlines;
  @Inject RequestWords words;
  @Inject ReceiptTimes receipts;
  @Inject CurrentCaller caller;
  private final Clock clock = Clock.systemUTC();

  /** A verdict that is not met for a cause. */
  private record Failed(Subject subject, GateVerdict verdict) {}

  CauseCard of(Worklist.Cause cause) {
    List<Failed> failed = failed(cause);
    CauseKey key = cause.key();
    boolean isPollen = key.kind() == CauseKey.Kind.POLLEN;
    Optional<Failed> worst = isPollen ? nearest(failed) : failed.stream().findFirst();
    CauseNotes notes = readModel.causeNotes();
    return new CauseCard(
        key,
        href(key),
        name(key),
        Addresses.pageOf(key.subject()),
        isPollen
            ? words.texts("desk").of("tooNear", words.form().count(cause.origins().size()))
            : gates(failed),
        worst.filter(one -> isPollen).map(one -> crop(one.subject())),
        worst.map(one -> new RawString(words.verdicts().lineHtml(one.verdict()))),
        (int) cause.origins().stream().filter(one -> one.kind() == Subject.Kind.CROP).count(),
        cause.lots(),
        cause.released(),
        cause.leftKg(),
        cause.customersKg(),
        known(failed),
        notes
            .takenOver(key)
            .map(
                note ->
                    new CauseCard.Holder(
                        note.getWrittenBy(),
                        note.getWrittenAt(),
                        note.getWrittenBy().equals(caller.get().personId()))),
        notes.of(key).size());
  }

  /** Page of a cause. */
  static String href(CauseKey key) {
    return "/desk/causes/" + Addresses.part(key.text());
  }

  String name(CauseKey key) {
    if (key.subject().kind().isJudged()) {
      return headlines.name(key.subject());
    }
    String named = words.words().named(key.subject());
    return named.substring(0, 1).toUpperCase(Locale.ROOT) + named.substring(1);
  }

  private List<Failed> failed(Worklist.Cause cause) {
    return cause.origins().stream()
        .limit(MOST_LOOKED_AT)
        .flatMap(origin -> data.standing(origin).stream().flatMap(one -> failed(one, cause.key())))
        .toList();
  }

  private static Stream<Failed> failed(LotStanding standing, CauseKey key) {
    Subject subject = Subject.parse(standing.getSubject());
    return standing.getVerdicts().stream()
        .filter(verdict -> verdict.getState() == VerdictState.NOT_MET)
        .filter(verdict -> CauseKey.of(subject, verdict).equals(key))
        .map(verdict -> new Failed(subject, verdict));
  }

  private static Optional<Failed> nearest(List<Failed> failed) {
    return failed.stream()
        .min(
            Comparator.comparingDouble(
                one ->
                    Optional.ofNullable(one.verdict().getMeasured())
                        .map(measured -> measured.getValue())
                        .orElse(Double.MAX_VALUE)));
  }

  private String gates(List<Failed> failed) {
    return failed.stream()
        .map(one -> words.terms().gate(one.verdict().getGate()))
        .distinct()
        .collect(Collectors.joining("; "));
  }

  private CauseCard.Crop crop(Subject crop) {
    return new CauseCard.Crop(headlines.name(crop), Addresses.pageOf(crop));
  }

  /** A verdict is known once the last of its facts is here; the cause with the first verdict. */
  private Optional<CauseCard.Known> known(List<Failed> failed) {
    return failed.stream()
        .flatMap(one -> received(one.verdict()).stream())
        .min(Comparator.naturalOrder())
        .map(
            since -> new CauseCard.Known(since, Duration.between(since, clock.instant()).toDays()));
  }

  private Optional<Instant> received(GateVerdict verdict) {
    return verdict.getFactIds().stream()
        .flatMap(factId -> receipts.receivedAt(factId).stream())
        .max(Comparator.naturalOrder());
  }
}
