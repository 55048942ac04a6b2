package org.kornspur.api.page;

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
import org.kornspur.api.engine.RulesInForce;
import org.kornspur.api.readmodel.StandingRow;
import org.kornspur.api.resource.Answers;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.LocalForm;
import org.kornspur.api.text.StandingSummary;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.api.view.Caution;
import org.kornspur.api.view.GateView;
import org.kornspur.api.view.InheritedView;
import org.kornspur.api.view.RequestWords;
import org.kornspur.api.view.StandingView;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.processors.stream.StatementRecords;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.RuleNote;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictLimit;
import org.kornspur.standing.VerdictState;
import org.kornspur.standing.VerdictValue;

/** Puts together the page of one lot or crop, from the same services as the interface. */
@RequestScoped
public class SubjectSheets {
  private static final int MOST_SUBJECTS = 5000;
  private static final int LONGEST_TITLE = 18;

  @Inject Answers answers;
  @Inject Seen seen;
  @Inject Framing framing;
  @Inject RequestWords requestWords;
  @Inject RulesInForce rules;

  /** The page of a subject whose standing is this. */
  public SubjectSheet of(Subject subject, StandingView view) {
    VerdictWords words = requestWords.verdicts();
    LotStanding standing = seen.standing(subject).orElseThrow();
    List<Entry> entries = answers.wholeDossier(subject).entries();
    Set<String> own =
        entries.stream().map(entry -> entry.header().getFactId()).collect(Collectors.toSet());
    Trace back = Trace.walk(seen.pedigree(), subject, Trace.Direction.BACK, MOST_SUBJECTS);
    Trace forward = Trace.walk(seen.pedigree(), subject, Trace.Direction.FORWARD, MOST_SUBJECTS);
    Map<Subject, Optional<LotStanding>> standings = new HashMap<>();
    PedigreeCut cut =
        PedigreeCut.of(back, forward, one -> standings.computeIfAbsent(one, seen::standing));
    LotMessages texts = texts();
    String name = name(subject);
    long counting = entries.stream().filter(Entry::counts).count();
    return new SubjectSheet(
        subject.id(),
        PageAddresses.of(subject),
        name,
        subject.kind().word(),
        view.state(),
        sentence(view),
        reason(standing),
        Optional.ofNullable(view.release()).filter(release -> release.step() != ReleaseStep.NONE),
        Optional.ofNullable(view.material()),
        Optional.ofNullable(view.material())
            .flatMap(material -> rules.rulebooks().find(material.rulebookId()))
            .map(words.words()::rulebook),
        Optional.ofNullable(view.holder())
            .map(holder -> words.words().named(Subject.parse(holder.subject()))),
        view.heldKg(),
        view.givenOutKg(),
        view.leftKg(),
        view.changedAt(),
        view.cautions().stream().map(this::caution).toList(),
        standing.getVerdicts().stream()
            .sorted(Comparator.comparingInt(verdict -> urgency(verdict.getState())))
            .map(verdict -> gate(verdict, own, words))
            .toList(),
        standing.getRuleNotes().stream().map(note -> ruleNote(note, words)).toList(),
        standing.getInherited().stream().map(trouble -> inherited(trouble, words)).toList(),
        cut.links().isEmpty() ? Optional.empty() : Optional.of(draw(cut, subject)),
        cut.nodes().size() < cut.all()
            ? Optional.of(
                texts.pedigreeCut(form().count(cut.nodes().size()), form().count(cut.all())))
            : Optional.empty(),
        movements(back, forward, cut),
        dispatched(forward).values().stream().mapToDouble(Double::doubleValue).sum(),
        dispatched(forward).entrySet().stream()
            .map(
                customer ->
                    new SubjectSheet.CustomerLine(
                        words.words().named(Subject.enterprise(customer.getKey())),
                        customer.getValue()))
            .sorted(Comparator.comparingDouble(SubjectSheet.CustomerLine::massKg).reversed())
            .toList(),
        completeness(back, forward),
        counting,
        entries.size() - counting,
        FactLine.of(entries, trade(), seen::sees));
  }

  private String name(Subject subject) {
    return subject.kind() == Subject.Kind.LOT
        ? texts().lot(subject.id())
        : texts().crop(subject.id());
  }

  /** A standing in one sentence of who asks. */
  public String sentence(StandingView view) {
    String name = name(Subject.parse(view.subject()));
    LotMessages texts = texts();
    return switch (view.state()) {
      case FIT -> texts.fit(name, form().count(view.gates().size()));
      case NOT_FIT ->
          texts.notFit(name, gates(view, VerdictState.NOT_MET, InheritedFinding.Weight.CONDEMNS));
      case EVIDENCE_OWED ->
          texts.owed(name, gates(view, VerdictState.OWED, InheritedFinding.Weight.OWED));
      case UNKNOWN -> texts.unknown(name);
    };
  }

  private String gates(StandingView view, VerdictState state, InheritedFinding.Weight weight) {
    Stream<String> own =
        view.gates().stream()
            .filter(gate -> gate.state() == state)
            .map(gate -> trade().gate(gate.gate()));
    Stream<String> inherited =
        view.inherited().stream()
            .filter(trouble -> trouble.weight() == weight)
            .map(this::inheritedGate);
    return Stream.concat(own, inherited).distinct().collect(Collectors.joining("; "));
  }

  /** A gate that an ancestor does not meet, with the ancestor. */
  public String inheritedGate(InheritedView trouble) {
    return texts()
        .inheritedGate(
            trade().gate(trouble.gate()), Subject.parse(trouble.origin().subject()).id());
  }

  private SubjectSheet.CautionLine caution(Caution caution) {
    LotMessages texts = texts();
    String title =
        switch (caution.about()) {
          case AUTHORITY -> texts.cautionAuthority();
          case SAMPLING_AND_TESTING -> texts.cautionSampling();
          case ERGOT -> texts.cautionErgot();
          case TREATED_SEED -> texts.cautionTreated();
          case NOT_RELEASED -> texts.cautionNotReleased();
        };
    return new SubjectSheet.CautionLine(caution.about(), title, caution.sentence());
  }

  private static int urgency(VerdictState state) {
    return switch (state) {
      case NOT_MET -> 0;
      case OWED -> 1;
      case UNKNOWN -> 2;
      case MET -> 3;
    };
  }

  /** The first reason, unless all is met. */
  private Optional<RawString> reason(LotStanding standing) {
    return standing.getState() == StandingState.FIT
        ? Optional.empty()
        : Optional.of(
            new RawString(requestWords.standings().reasonHtml(StandingSummary.of(standing))));
  }

  private GateLine gate(GateVerdict verdict, Set<String> own, VerdictWords words) {
    LotMessages texts = texts();
    Optional<VerdictLimit> limit = Optional.ofNullable(verdict.getLimit());
    Optional<VerdictValue> measured = Optional.ofNullable(verdict.getMeasured());
    Optional<String> limitText = limit.map(words::limit);
    Optional<String> value = measured.map(found -> measure(found.getValue(), verdict, words));
    Optional<String> margin = measured.map(found -> margin(found.getMargin(), verdict, words));
    String name = trade().gate(verdict.getGate());
    String spoken =
        texts.scaleText(name, value.orElse(""), limitText.orElse(""), margin.orElse(""));
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
                    texts.intervalOf(
                        measure(interval.getLower(), verdict, words),
                        measure(interval.getUpper(), verdict, words),
                        form().percent(interval.getConfidence()))),
        limit.map(words::source),
        limit.map(VerdictLimit::getVerified).orElse(true),
        verdict.getState() == VerdictState.OWED
            ? Optional.of(new RawString(words.evidenceHtml(verdict)))
            : Optional.empty(),
        raw(words.html(VerdictWords.findings(verdict), verdict.getLimit())),
        raw(words.html(VerdictWords.advice(verdict), null)),
        GateScale.of(GateView.of(verdict, words), form(), spoken),
        verdict.getFactIds().stream().map(id -> link(id, own)).toList());
  }

  private static List<RawString> raw(List<String> html) {
    return html.stream().map(RawString::new).toList();
  }

  private static String measure(double value, GateVerdict verdict, VerdictWords words) {
    return words.measure(value, verdict.getMeasured().getUnit(), verdict.getLimit());
  }

  private String margin(double margin, GateVerdict verdict, VerdictWords words) {
    String size = form().measure(Math.abs(margin), verdict.getMeasured().getUnit());
    return margin < 0 ? texts().broken(size) : texts().room(size);
  }

  private static GateLine.FactLink link(String factId, Set<String> own) {
    return new GateLine.FactLink(
        factId, own.contains(factId) ? "#" + FactLine.anchorOf(factId) : "");
  }

  private SubjectSheet.RuleNoteLine ruleNote(RuleNote note, VerdictWords words) {
    return new SubjectSheet.RuleNoteLine(
        Optional.ofNullable(note.getGate()).map(trade()::gate),
        new RawString(words.words().html(StatementRecords.read(note.getFinding()))));
  }

  private SubjectSheet.InheritedLine inherited(InheritedTrouble trouble, VerdictWords words) {
    SubjectSheet.Stop origin = stop(Subject.parse(trouble.getOrigin()));
    return new SubjectSheet.InheritedLine(
        trade().gate(trouble.getGate()),
        StandingRecords.weighs(trouble, InheritedFinding.Weight.CONDEMNS),
        origin,
        trouble.getPath().stream().map(link -> stop(Subject.parse(link))).toList(),
        trouble.getFactIds().stream()
            .map(id -> new GateLine.FactLink(id, origin.href() + "#" + FactLine.anchorOf(id)))
            .toList(),
        raw(words.html(VerdictWords.findings(trouble), null)));
  }

  private static SubjectSheet.Stop stop(Subject subject) {
    return new SubjectSheet.Stop(subject.toString(), PageAddresses.of(subject));
  }

  private PedigreeDrawing draw(PedigreeCut cut, Subject start) {
    Map<Subject, Integer> years = new HashMap<>();
    cut.nodes().forEach(subject -> year(subject).ifPresent(year -> years.put(subject, year)));
    int last = years.values().stream().mapToInt(Integer::intValue).max().orElse(0);
    Map<Subject, PedigreeLayout.Face> faces = new HashMap<>();
    Map<Integer, String> names = new HashMap<>();
    for (Subject subject : cut.nodes()) {
      boolean isCustomer = subject.kind() == Subject.Kind.ENTERPRISE;
      int column = isCustomer ? last + 1 : years.getOrDefault(subject, 0);
      names.put(
          column,
          isCustomer
              ? texts().customers()
              : column == 0 ? texts().yearUnknown() : String.valueOf(column));
      faces.put(subject, face(subject, cut, column));
    }
    return PedigreeLayout.draw(cut, start, faces, names, form()::kg);
  }

  private Optional<Integer> year(Subject subject) {
    return row(subject).flatMap(StandingRow::material).map(SeedMaterial::getCropYear);
  }

  private PedigreeLayout.Face face(Subject subject, PedigreeCut cut, int column) {
    Optional<StandingRow> row = row(subject);
    String id = subject.id();
    String state =
        subject.kind() == Subject.Kind.ENTERPRISE
            ? "CUSTOMER"
            : row.map(one -> one.state().name()).orElse("NONE");
    String second =
        subject.kind() == Subject.Kind.ENTERPRISE
            ? texts().customer()
            : row.map(this::second).orElse("");
    return new PedigreeLayout.Face(
        PageAddresses.of(subject),
        state,
        id.length() > LONGEST_TITLE ? id.substring(0, LONGEST_TITLE - 1) + "…" : id,
        second,
        more(cut.hiddenBefore().get(subject)),
        more(cut.hiddenAfter().get(subject)),
        subject.kind() == Subject.Kind.ENTERPRISE
            ? texts().customer() + " " + id
            : name(subject) + row.map(one -> ", " + trade().state(one.state())).orElse(""),
        column);
  }

  private String second(StandingRow row) {
    String seed = row.material().map(SeedMaterial::getSeedId).orElse("");
    String shown = seed.length() > 9 ? seed.substring(0, 8) + "…" : seed;
    return shown.isEmpty()
        ? trade().state(row.state())
        : shown + " · " + trade().state(row.state());
  }

  private String more(Integer hidden) {
    return hidden == null ? "" : texts().more(form().count(hidden));
  }

  private List<SubjectSheet.MovementLine> movements(Trace back, Trace forward, PedigreeCut cut) {
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
                new SubjectSheet.MovementLine(
                    stop(edge.parent()),
                    stop(edge.child()),
                    edge.massKg(),
                    trade().fact(edge.by()),
                    edge.happenedAt(),
                    troubled.contains(edge.parent() + " " + edge.child())))
        .toList();
  }

  private static Map<String, Double> dispatched(Trace forward) {
    Map<String, Double> byCustomerKg = new TreeMap<>();
    forward.edges().stream()
        .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE)
        .forEach(edge -> byCustomerKg.merge(edge.child().id(), edge.massKg(), Double::sum));
    return byCustomerKg;
  }

  private String completeness(Trace back, Trace forward) {
    if (!back.complete() || !forward.complete()) {
      return texts().traceCut(form().count(MOST_SUBJECTS));
    }
    List<String> unresolved =
        Stream.concat(back.steps().keySet().stream(), forward.steps().keySet().stream())
            .filter(
                subject ->
                    subject.kind() == Subject.Kind.LOT || subject.kind() == Subject.Kind.CROP)
            .filter(subject -> row(subject).isEmpty())
            .map(Subject::toString)
            .distinct()
            .toList();
    return unresolved.isEmpty()
        ? texts().traceComplete()
        : texts()
            .traceUnresolved(
                form().count(unresolved.size()),
                unresolved.stream().limit(10).collect(Collectors.joining(", ")));
  }

  private Optional<StandingRow> row(Subject subject) {
    return seen.row(subject);
  }

  private LotMessages texts() {
    return framing.texts(LotMessages.class);
  }

  private DomainTerms trade() {
    return DomainTerms.in(framing.language());
  }

  private LocalForm form() {
    return framing.form();
  }
}
