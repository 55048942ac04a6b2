package org.kornspur.api.query.recall;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.LocalForm;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.recall.LooseEnd;
import org.kornspur.standing.StandingState;

/** What the auditor's pages and papers say in sentences, in one language. */
public final class TraceWords {
  private final PageTexts texts;
  private final LocalForm form;
  private final DomainTerms trade;

  /** For who asks. */
  public static TraceWords of(RequestWords words) {
    return new TraceWords(words.texts("trace"), words.form(), words.terms());
  }

  private TraceWords(PageTexts texts, LocalForm form, DomainTerms trade) {
    this.texts = texts;
    this.form = form;
    this.trade = trade;
  }

  /**
   * A movement of seed as a row of a table.
   *
   * @param steps how far from the start what was reached stands
   * @param reached what was reached by it, as kind:id
   * @param standing of what was reached; empty for customers and where none is known
   */
  public record Move(
      int steps,
      String from,
      String to,
      String reached,
      Optional<StandingState> standing,
      String mass,
      String by,
      String day,
      String factId) {}

  /** The movements of a walk, nearest first. */
  public List<Move> moves(TraceView trace) {
    boolean back = trace.direction().equals("back");
    Map<String, TraceView.Node> nodes = new HashMap<>();
    trace.nodes().forEach(node -> nodes.put(node.subject(), node));
    return trace.edges().stream()
        .map(edge -> move(edge, nodes.get(back ? edge.parent() : edge.child())))
        .sorted(Comparator.comparingInt(Move::steps))
        .toList();
  }

  private Move move(TraceView.Movement edge, TraceView.Node reached) {
    return new Move(
        reached.steps(),
        name(edge.parent()),
        name(edge.child()),
        reached.subject(),
        Optional.ofNullable(reached.state()),
        form.kg(edge.massKg()),
        trade.fact(edge.by()),
        form.day(edge.happenedAt()),
        edge.factId());
  }

  /** A subject written as kind:id, in words. */
  public String name(String subject) {
    Subject named = Subject.parse(subject);
    return switch (named.kind()) {
      case LOT -> texts.of("lot", named.id());
      case CROP -> texts.of("crop", named.id());
      case ENTERPRISE -> texts.of("customer", named.id());
      case SOURCE, HYBRID -> named.toString();
    };
  }

  /** Headline of a trace. */
  public String traceOf(Subject subject) {
    return subject.kind() == Subject.Kind.LOT
        ? texts.of("traceOfLot", subject.id())
        : texts.of("traceOfCrop", subject.id());
  }

  /** Headline of a drill. */
  public String drillOf(Subject subject) {
    return subject.kind() == Subject.Kind.LOT
        ? texts.of("drillOfLot", subject.id())
        : texts.of("drillOfCrop", subject.id());
  }

  /** Caption of the movements back. */
  public String backCaption() {
    return texts.of("backCaption");
  }

  /** Caption of the movements forward. */
  public String forwardCaption() {
    return texts.of("forwardCaption");
  }

  /** A subject as part of an address. */
  public String encoded(Subject subject) {
    return URLEncoder.encode(subject.toString(), StandardCharsets.UTF_8);
  }

  /** Id of a subject written as kind:id. */
  public String id(String subject) {
    return Subject.parse(subject).id();
  }

  /** By what a subject was found. */
  public String how(Finder.Found found) {
    return switch (found.how()) {
      case ID -> texts.of("byId");
      case FACT -> texts.of("byFact");
      case LABEL ->
          found
              .dispatch()
              .map(
                  dispatch ->
                      texts.of(
                          "byLabel",
                          form.kg(dispatch.massKg()),
                          dispatch.customerId(),
                          form.day(dispatch.happenedAt())))
              .orElse("");
      case BETWEEN_LABELS ->
          found
              .dispatch()
              .map(
                  dispatch ->
                      texts.of(
                          "betweenLabels",
                          dispatch.labelNumbers().get(0),
                          dispatch.labelNumbers().get(1),
                          form.kg(dispatch.massKg()),
                          dispatch.customerId(),
                          form.day(dispatch.happenedAt())))
              .orElse("");
    };
  }

  /** Whether the dispatch by which a subject was found still counts. */
  public boolean counts(Finder.Found found) {
    return found.dispatch().map(Finder.Labelled::counts).orElse(true);
  }

  /** What reached customers. */
  public String reached(TraceView forward) {
    TraceView.Dispatched dispatched = forward.dispatched();
    String kg = form.kg(dispatched.totalKg());
    int customers = dispatched.byCustomerKg().size();
    return switch (customers) {
      case 0 -> texts.of("reachedNobody");
      case 1 -> texts.of("reachedOne", kg);
      default -> texts.of("reached", kg, form.count(customers));
    };
  }

  /** Whether the stock was counted. */
  public String stock(RecallView.BalanceView balance) {
    return balance.lotsCounted() == 0
        ? texts.of("bookStock")
        : texts.of(
            "countedStock", form.count(balance.lotsCounted()), form.count(balance.lots().size()));
  }

  /** How far the balance may be off, and where that stands. */
  public String tolerance(RecallView.BalanceView balance) {
    return texts.of(
        "tolerance",
        form.number(balance.tolerancePercent()),
        form.kg(balance.allowedKg()),
        balance.toleranceSource());
  }

  /** How far the data lags. */
  public String lag(RecallView drill) {
    AsOf asOf = drill.asOf();
    Long waiting = asOf.complete() ? Long.valueOf(0) : asOf.recordsWaiting();
    return texts.of("lag", waiting == null ? texts.of("unknown") : form.count(waiting));
  }

  /** Links for which the drill is incomplete. */
  public long unresolved(RecallView drill) {
    return drill.looseEnds().stream().filter(RecallView.LooseEndView::unresolved).count();
  }

  /** What is missing where a walk ends. */
  public String looseEnd(LooseEnd.Kind kind) {
    return texts.of("looseEnd", kind);
  }

  /** Kilograms to a tenth, for accounts where a small difference matters. */
  public String account(double massKg) {
    return form.number(Math.round(massKg * 10) / 10.0) + "\u00a0kg";
  }
}
