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
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

/** What the auditor's pages and papers say in sentences, in one language. */
public record TraceWords(PageTexts texts, LocalFormat form, DomainTerms trade) {

  /** For the caller. */
  public static TraceWords of(RequestWords words) {
    return new TraceWords(words.texts("trace"), words.form(), words.terms());
  }

  /**
   * A movement of seed as a row of a table.
   *
   * @param steps how far from the start what was reached stands
   * @param standing of what was reached; empty for customers and where none is known
   */
  public record Move(
      int steps,
      String from,
      String to,
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

  /** A subject as part of an address. */
  public String encoded(Subject subject) {
    return URLEncoder.encode(subject.toString(), StandardCharsets.UTF_8);
  }

  /** Id of a subject written as kind:id. */
  public String id(String subject) {
    return Subject.parse(subject).id();
  }

  /** By what a subject was found. */
  public String how(LotFinder.Found found) {
    return found
        .dispatch()
        .map(dispatch -> how(found.how(), dispatch))
        .orElseGet(() -> texts.of(found.how() == LotFinder.How.ID ? "byId" : "byFact"));
  }

  private String how(LotFinder.How how, LotFinder.Labelled dispatch) {
    String mass = form.kg(dispatch.massKg());
    String customer = dispatch.customerId();
    String day = form.day(dispatch.happenedAt());
    List<String> labels = dispatch.labelNumbers();
    return how == LotFinder.How.LABEL
        ? texts.of("byLabel", mass, customer, day)
        : texts.of("betweenLabels", labels.get(0), labels.get(1), mass, customer, day);
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

  /** Kilograms to a tenth, for accounts where a small difference matters. */
  public String account(double massKg) {
    return form.number(Math.round(massKg * 10) / 10.0) + "\u00a0kg";
  }
}
