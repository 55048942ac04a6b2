package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.query.view.GateView;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.processors.stream.StatementRecords;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.RuleNote;
import org.kornspur.standing.VerdictLimit;
import org.kornspur.standing.VerdictState;
import org.kornspur.standing.VerdictValue;

/**
 * The gates, rule notes and inherited problems of a standing as lines of a page.
 *
 * @param own the facts that stand on the same page, and where each may be mended
 */
record GateLines(
    VerdictWords words,
    PageTexts texts,
    LocalFormat form,
    DomainTerms terms,
    Map<String, FactLine.Mending> own) {

  /** Every gate, those that are not met first. */
  List<GateLine> gates(LotStanding standing) {
    return standing.getVerdicts().stream()
        .sorted(Comparator.comparingInt(verdict -> urgency(verdict.getState())))
        .map(this::gate)
        .toList();
  }

  List<SubjectPageView.RuleNoteLine> ruleNotes(LotStanding standing) {
    return standing.getRuleNotes().stream().map(this::ruleNote).toList();
  }

  List<SubjectPageView.InheritedLine> inherited(LotStanding standing) {
    return standing.getInherited().stream().map(this::inherited).toList();
  }

  private static int urgency(VerdictState state) {
    return switch (state) {
      case NOT_MET -> 0;
      case OWED -> 1;
      case UNKNOWN -> 2;
      case MET -> 3;
    };
  }

  private GateLine gate(GateVerdict verdict) {
    Optional<VerdictLimit> limit = Optional.ofNullable(verdict.getLimit());
    Optional<VerdictValue> measured = Optional.ofNullable(verdict.getMeasured());
    Optional<String> limitText = limit.map(words::limit);
    Optional<String> value = measured.map(found -> measure(found.getValue(), verdict));
    Optional<String> margin = measured.map(found -> margin(found, verdict.getLimit()));
    String name = terms.gate(verdict.getGate());
    String spoken =
        texts.of("scaleText", name, value.orElse(""), limitText.orElse(""), margin.orElse(""));
    return new GateLine(
        name,
        words.about(verdict.getAbout(), verdict.getAspect()),
        verdict.getState(),
        value,
        limitText,
        margin,
        measured
            .map(VerdictValue::getInterval)
            .map(
                interval ->
                    texts.of(
                        "intervalOf",
                        measure(interval.getLower(), verdict),
                        measure(interval.getUpper(), verdict),
                        form.percent(interval.getConfidence()))),
        limit.map(words::source),
        verdict.getState() == VerdictState.OWED
            ? Optional.of(new RawString(words.evidenceHtml(verdict)))
            : Optional.empty(),
        raw(words.html(VerdictWords.findings(verdict), verdict.getLimit())),
        raw(words.html(VerdictWords.advice(verdict), null)),
        GateScale.of(GateView.of(verdict, words), form, spoken),
        verdict.getFactIds().stream().map(id -> link(id)).toList(),
        VerdictWords.factsToCorrect(verdict).stream().flatMap(this::correction).toList());
  }

  private static List<RawString> raw(List<String> html) {
    return html.stream().map(RawString::new).toList();
  }

  private String measure(double value, GateVerdict verdict) {
    return words.measure(value, verdict.getMeasured().getUnit(), verdict.getLimit());
  }

  private String margin(VerdictValue found, VerdictLimit limit) {
    double margin = found.getMargin();
    String size =
        words.apart(found, limit).orElseGet(() -> form.measure(Math.abs(margin), found.getUnit()));
    return margin < 0 ? texts.of("broken", size) : texts.of("room", size);
  }

  private Stream<GateLine.FactLink> correction(String factId) {
    return Stream.ofNullable(own.get(factId))
        .map(FactLine.Mending::correctHref)
        .filter(href -> !href.isEmpty())
        .map(href -> new GateLine.FactLink(factId, href));
  }

  private GateLine.FactLink link(String factId) {
    return new GateLine.FactLink(
        factId, own.containsKey(factId) ? "#" + FactLine.anchorOf(factId) : "");
  }

  private SubjectPageView.RuleNoteLine ruleNote(RuleNote note) {
    return new SubjectPageView.RuleNoteLine(
        Optional.ofNullable(note.getGate()).map(terms::gate),
        new RawString(words.words().html(StatementRecords.read(note.getFinding()))));
  }

  private SubjectPageView.InheritedLine inherited(InheritedTrouble trouble) {
    String origin = Addresses.pageOf(Subject.parse(trouble.getOrigin()));
    return new SubjectPageView.InheritedLine(
        terms.gate(trouble.getGate()),
        StandingRecords.weighs(trouble, InheritedFinding.Weight.CONDEMNS),
        trouble.getPath().stream()
            .map(link -> SubjectPageView.Stop.of(Subject.parse(link)))
            .toList(),
        trouble.getFactIds().stream()
            .map(id -> new GateLine.FactLink(id, origin + "#" + FactLine.anchorOf(id)))
            .toList(),
        raw(words.html(trouble)));
  }
}
