package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.command.fact.QuarantineDecisions;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.visibility.PostingPolicy;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.FirstReason;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

/** Puts together the page of one lot or crop, from the same services as the interface. */
@RequestScoped
public class SubjectPageAssembler {
  private static final int MOST_SUBJECTS = 5000;
  private static final int MOST_REFUSED = 5;

  @Inject VisibleData data;
  @Inject RequestWords words;
  @Inject StandingHeadlines headlines;
  @Inject ReceiptTimes receipts;
  @Inject PostingPolicy rights;
  @Inject CurrentCaller caller;
  @Inject QuarantineDecisions quarantine;

  /** The page of a subject whose standing is this. */
  public SubjectPageView of(Subject subject, StandingView view) {
    VerdictWords verdicts = words.verdicts();
    LotStanding standing = data.standing(subject).orElseThrow();
    List<Entry> entries = data.dossier(subject).entries();
    List<FactLine> facts =
        FactLine.of(
            entries, receipts, words.terms(), FactValues.of(words), data::sees, this::mending);
    Trace back = Trace.walk(data.pedigree(), subject, Trace.Direction.BACK, MOST_SUBJECTS);
    Trace forward = Trace.walk(data.pedigree(), subject, Trace.Direction.FORWARD, MOST_SUBJECTS);
    Map<Subject, Optional<LotStanding>> standings = new HashMap<>();
    PedigreeCut cut =
        PedigreeCut.of(back, forward, one -> standings.computeIfAbsent(one, data::standing));
    PageTexts texts = texts();
    Map<String, Double> customersKg = dispatched(forward);
    GateLines lines =
        new GateLines(verdicts, texts, words.form(), words.terms(), FactLine.mendings(facts));
    return new SubjectPageView(
        view,
        Addresses.pageOf(subject),
        headlines.name(subject),
        headlines.why(view),
        reason(standing),
        Optional.ofNullable(view.holder())
            .map(holder -> verdicts.words().named(Subject.parse(holder.subject()))),
        lines.gates(standing),
        lines.ruleNotes(standing),
        lines.inherited(standing),
        cut.links().isEmpty()
            ? Optional.empty()
            : Optional.of(
                new PedigreeNodes(data, headlines, texts, words.form(), words.terms())
                    .draw(cut, subject)),
        cut.nodes().size() < cut.all()
            ? Optional.of(
                texts.of(
                    "pedigreeCut",
                    words.form().count(cut.nodes().size()),
                    words.form().count(cut.all())))
            : Optional.empty(),
        movements(back, forward, cut),
        customersKg.values().stream().mapToDouble(Double::doubleValue).sum(),
        customersKg.entrySet().stream()
            .map(
                customer ->
                    new SubjectPageView.CustomerLine(
                        verdicts.words().named(Subject.enterprise(customer.getKey())),
                        customer.getValue()))
            .sorted(Comparator.comparingDouble(SubjectPageView.CustomerLine::massKg).reversed())
            .toList(),
        incomplete(back, forward),
        entries.stream().filter(entry -> !entry.counts()).count(),
        facts,
        quarantine.waitingThatName(subject).stream()
            .limit(MOST_REFUSED)
            .map(row -> QuarantinePage.Line.of(row, words))
            .toList(),
        caller.get().may(Permission.POST_FACTS) ? Addresses.recording(subject) : "");
  }

  /** Whoever may bring a type of fact may correct it; taking back needs no more than the fact. */
  private FactLine.Mending mending(Entry entry) {
    if (!rights.mayMend(entry.fact())) {
      return FactLine.Mending.NONE;
    }
    FactType type = FactType.of(entry.fact());
    String factId = entry.header().getFactId();
    return new FactLine.Mending(
        caller.get().may(Permission.toPost(type)) ? Addresses.correcting(type, factId) : "",
        Addresses.takingBack(factId));
  }

  /** The first reason, unless all is met. */
  private Optional<RawString> reason(LotStanding standing) {
    return standing.getState() == StandingState.FIT
        ? Optional.empty()
        : Optional.of(new RawString(words.firstReasons().reasonHtml(FirstReason.of(standing))));
  }

  private List<SubjectPageView.MovementLine> movements(Trace back, Trace forward, PedigreeCut cut) {
    Set<Edge> shown = new HashSet<>();
    Set<String> troubled =
        cut.links().stream()
            .filter(PedigreeCut.Link::troubled)
            .map(link -> link.parent() + " " + link.child())
            .collect(Collectors.toSet());
    return Stream.concat(back.edges().stream(), forward.edges().stream())
        .filter(edge -> cut.nodes().contains(edge.parent()) && cut.nodes().contains(edge.child()))
        .filter(shown::add)
        .sorted(Comparator.comparing(Edge::happenedAt).thenComparing(Edge::factId))
        .map(
            edge ->
                new SubjectPageView.MovementLine(
                    edge, troubled.contains(edge.parent() + " " + edge.child())))
        .toList();
  }

  private static Map<String, Double> dispatched(Trace forward) {
    Map<String, Double> byCustomerKg = new TreeMap<>();
    forward.edges().stream()
        .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE)
        .forEach(edge -> byCustomerKg.merge(edge.child().id(), edge.massKg(), Double::sum));
    return byCustomerKg;
  }

  private Optional<String> incomplete(Trace back, Trace forward) {
    if (!back.complete() || !forward.complete()) {
      return Optional.of(texts().of("traceCut", words.form().count(MOST_SUBJECTS)));
    }
    List<String> unresolved =
        Stream.concat(back.steps().keySet().stream(), forward.steps().keySet().stream())
            .filter(subject -> subject.kind().isJudged() && data.row(subject).isEmpty())
            .map(Subject::toString)
            .distinct()
            .toList();
    return unresolved.isEmpty()
        ? Optional.empty()
        : Optional.of(
            texts()
                .of(
                    "traceUnresolved",
                    words.form().count(unresolved.size()),
                    unresolved.stream().limit(10).collect(Collectors.joining(", "))));
  }

  private PageTexts texts() {
    return words.texts("lot");
  }
}
