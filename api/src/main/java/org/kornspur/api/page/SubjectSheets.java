package org.kornspur.api.page;

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
import org.kornspur.api.feed.StandingRow;
import org.kornspur.api.resource.Answers;
import org.kornspur.api.view.Caution;
import org.kornspur.api.view.GateView;
import org.kornspur.api.view.InheritedView;
import org.kornspur.api.view.LimitView;
import org.kornspur.api.view.StandingView;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.VerdictState;

/** Puts together the page of one lot or crop, from the same services as the interface. */
@RequestScoped
public class SubjectSheets {
  private static final int MOST_SUBJECTS = 5000;
  private static final int LONGEST_TITLE = 18;

  @Inject Answers answers;
  @Inject Seen seen;
  @Inject Framing framing;

  /** The page of a subject whose standing is this. */
  public SubjectSheet of(Subject subject, StandingView view) {
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
        view.sentence(),
        Optional.ofNullable(view.release()).filter(release -> release.step() != ReleaseStep.NONE),
        Optional.ofNullable(view.material()),
        Optional.ofNullable(view.rulebook()),
        Optional.ofNullable(view.holder()).map(holder -> Subject.parse(holder.subject()).id()),
        view.heldKg(),
        view.givenOutKg(),
        view.leftKg(),
        view.changedAt(),
        view.cautions().stream().map(this::caution).toList(),
        view.gates().stream()
            .sorted(Comparator.comparingInt(gate -> urgency(gate.state())))
            .map(gate -> gate(gate, own))
            .toList(),
        view.inherited().stream().map(this::inherited).toList(),
        cut.links().isEmpty() ? Optional.empty() : Optional.of(draw(cut, subject)),
        cut.nodes().size() < cut.all()
            ? Optional.of(
                texts.pedigreeCut(form().count(cut.nodes().size()), form().count(cut.all())))
            : Optional.empty(),
        movements(back, forward, cut),
        dispatched(forward).values().stream().mapToDouble(Double::doubleValue).sum(),
        dispatched(forward).entrySet().stream()
            .map(customer -> new SubjectSheet.CustomerLine(customer.getKey(), customer.getValue()))
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
      case NOT_FIT -> texts.notFit(name, gates(view, VerdictState.NOT_MET, "CONDEMNS"));
      case EVIDENCE_OWED -> texts.owed(name, gates(view, VerdictState.OWED, "OWED"));
      case UNKNOWN -> texts.unknown(name);
    };
  }

  private String gates(StandingView view, VerdictState state, String weight) {
    Stream<String> own =
        view.gates().stream()
            .filter(gate -> gate.state() == state)
            .map(gate -> trade().gate(gate.gate()));
    Stream<String> inherited =
        view.inherited().stream()
            .filter(trouble -> trouble.weight().equals(weight))
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

  private GateLine gate(GateView gate, Set<String> own) {
    LotMessages texts = texts();
    LocalForm form = form();
    Optional<LimitView> limit = Optional.ofNullable(gate.limit());
    Optional<String> limitText = limit.map(this::limit);
    Optional<String> value =
        Optional.ofNullable(gate.value()).map(number -> form.measure(number, gate.unit()));
    Optional<String> margin = Optional.ofNullable(gate.margin()).map(room -> margin(room, gate));
    String spoken =
        texts.scaleText(
            trade().gate(gate.gate()), value.orElse(""), limitText.orElse(""), margin.orElse(""));
    return new GateLine(
        trade().gate(gate.gate()),
        gate.aspect(),
        gate.state(),
        value,
        limitText,
        margin,
        Optional.ofNullable(gate.interval())
            .map(
                interval ->
                    texts.intervalOf(
                        form.measure(interval.lower(), gate.unit()),
                        form.measure(interval.upper(), gate.unit()),
                        form.percent(interval.confidence()))),
        limit.map(LimitView::source),
        limit.map(LimitView::verified).orElse(true),
        Optional.ofNullable(gate.owed()),
        gate.sentence(),
        GateScale.of(gate, form, spoken),
        gate.factIds().stream().map(id -> link(id, own)).toList());
  }

  private String limit(LimitView limit) {
    String value = form().measure(limit.value(), limit.unit());
    return limit.sense().equals("AT_LEAST") ? texts().atLeast(value) : texts().atMost(value);
  }

  private String margin(double margin, GateView gate) {
    String size = form().measure(Math.abs(margin), gate.unit());
    return margin < 0 ? texts().broken(size) : texts().room(size);
  }

  private static GateLine.FactLink link(String factId, Set<String> own) {
    return new GateLine.FactLink(
        factId, own.contains(factId) ? "#" + FactLine.anchorOf(factId) : "");
  }

  private SubjectSheet.InheritedLine inherited(InheritedView trouble) {
    SubjectSheet.Stop origin = stop(Subject.parse(trouble.origin().subject()));
    return new SubjectSheet.InheritedLine(
        trade().gate(trouble.gate()),
        trouble.weight().equals("CONDEMNS"),
        origin,
        trouble.path().stream().map(link -> stop(Subject.parse(link.subject()))).toList(),
        trouble.factIds().stream()
            .map(id -> new GateLine.FactLink(id, origin.href() + "#" + FactLine.anchorOf(id)))
            .toList(),
        trouble.sentence());
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

  private Trade trade() {
    return Trade.in(framing.language());
  }

  private LocalForm form() {
    return framing.form();
  }
}
