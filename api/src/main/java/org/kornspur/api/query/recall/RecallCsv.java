package org.kornspur.api.query.recall;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.http.Csv;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.ingest.contract.Subject;

/** The result of a drill as one table of text. */
public final class RecallCsv {
  private static final List<String> HEADER =
      List.of("part", "subject", "customer", "massKg", "labelNumbers", "at", "factId", "note");

  private RecallCsv() {}

  /** The whole table. */
  public static String write(RecallView drill) {
    return Stream.of(
            Stream.of(line(HEADER)),
            summary(drill),
            drill.customers().stream().map(RecallCsv::customer),
            drill.deliveries().stream().map(RecallCsv::delivery),
            drill.balance().lots().stream().flatMap(RecallCsv::account),
            drill.balance().conditionings().stream().map(RecallCsv::conditioning),
            movements(drill.back()),
            movements(drill.forward()),
            drill.looseEnds().stream().map(RecallCsv::looseEnd))
        .flatMap(lines -> lines)
        .collect(Collectors.joining());
  }

  private static Stream<String> summary(RecallView drill) {
    RecallView.BalanceView balance = drill.balance();
    String start = drill.start().subject();
    String state =
        drill.complete()
            ? "complete"
            : "INCOMPLETE: " + String.join(" ", drill.incompleteBecause());
    String loss = "screenings and drying; " + balance.unrecordedLossKg() + " kg not on record";
    String difference =
        "%s; tolerance %s %% (%s)"
            .formatted(
                balance.balances() ? "balances" : "DOES NOT BALANCE",
                balance.tolerancePercent(),
                balance.toleranceSource());
    return Stream.of(
        line(List.of("drill", start, "", "", "", drill.asOf().answeredAt().toString(), "", state)),
        row("in", start, balance.inKg(), ""),
        row("to customers", start, balance.toCustomersKg(), ""),
        row("sown", start, balance.sownKg(), ""),
        row("to other lots", start, balance.toOtherLotsKg(), ""),
        row("stock", start, balance.stockKg(), balance.lotsCounted() + " counted"),
        row("loss", start, balance.lossKg(), loss),
        row("difference", start, balance.differenceKg(), difference));
  }

  private static String customer(RecallView.CustomerView customer) {
    String labels = Integer.toString(customer.labelNumbers());
    String id = id(customer.customer().subject());
    return row("customer", "", id, customer.massKg(), labels, "", "", "");
  }

  private static String delivery(RecallView.DeliveryView delivery) {
    String lot = delivery.lot().subject();
    String customer = id(delivery.customer().subject());
    String labels = String.join(" ", delivery.labelNumbers());
    String at = delivery.happenedAt().toString();
    return row("delivery", lot, customer, delivery.massKg(), labels, at, delivery.factId(), "");
  }

  private static String conditioning(RecallView.ConditioningView step) {
    String part = "conditioning difference";
    String note = step.off() ? "beyond tolerance" : "";
    return row(part, "", "", step.differenceKg(), "", "", step.factId(), note);
  }

  private static Stream<String> movements(TraceView trace) {
    return trace.edges().stream().map(edge -> movement(trace.direction(), edge));
  }

  private static String movement(String direction, TraceView.Movement edge) {
    String at = edge.happenedAt().toString();
    String note = edge.by() + " from " + edge.parent();
    return row(direction, edge.child(), "", edge.massKg(), "", at, edge.factId(), note);
  }

  private static String looseEnd(RecallView.LooseEndView end) {
    String part = end.unresolved() ? "unresolved" : "open";
    String subject = end.subject().subject();
    return line(List.of(part, subject, "", "", "", "", end.factId(), end.sentence()));
  }

  private static Stream<String> account(RecallView.LotView lot) {
    String subject = lot.lot().subject();
    return Stream.of(
        row("lot in", subject, lot.inKg(), ""),
        row("lot book stock", subject, lot.bookStockKg(), ""),
        row("lot difference", subject, lot.differenceKg(), lot.off() ? "beyond tolerance" : ""));
  }

  private static String row(String part, String subject, double massKg, String note) {
    return row(part, subject, "", massKg, "", "", "", note);
  }

  private static String row(
      String part,
      String subject,
      String customer,
      double massKg,
      String labels,
      String at,
      String factId,
      String note) {
    return Csv.line(
        Stream.of(
            Csv.text(part),
            Csv.text(subject),
            Csv.text(customer),
            String.format(Locale.ROOT, "%.3f", massKg + 0.0),
            Csv.text(labels),
            Csv.text(at),
            Csv.text(factId),
            Csv.text(note)));
  }

  private static String line(List<String> cells) {
    return Csv.line(cells.stream().map(Csv::text));
  }

  private static String id(String subject) {
    return Subject.parse(subject).id();
  }
}
