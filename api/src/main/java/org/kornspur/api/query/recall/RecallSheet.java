package org.kornspur.api.query.recall;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;

/**
 * The result of a drill as one table of text, in which no cell can become a formula.
 *
 * <p>Source of the form: RFC 4180. Source of the guard: OWASP, "CSV Injection": a cell that begins
 * with one of {@code = + - @}, tab, carriage return or line feed, or with the wide form of a sign,
 * is given an apostrophe in front. Numbers are written as numbers.
 */
public final class RecallSheet {
  private static final String BEGINNINGS = "=+-@\t\r\n＝＋－＠";
  private static final List<String> HEADER =
      List.of("part", "subject", "customer", "massKg", "labelNumbers", "at", "factId", "note");

  private RecallSheet() {}

  /** The whole table. */
  public static String write(RecallView drill) {
    return Stream.of(
            Stream.of(line(HEADER)),
            summary(drill),
            drill.customers().stream()
                .map(
                    customer ->
                        row(
                            "customer",
                            "",
                            id(customer.customer().subject()),
                            customer.massKg(),
                            Integer.toString(customer.labelNumbers()),
                            "",
                            "",
                            "")),
            drill.deliveries().stream()
                .map(
                    delivery ->
                        row(
                            "delivery",
                            delivery.lot().subject(),
                            id(delivery.customer().subject()),
                            delivery.massKg(),
                            String.join(" ", delivery.labelNumbers()),
                            delivery.happenedAt().toString(),
                            delivery.factId(),
                            "")),
            drill.balance().lots().stream().flatMap(RecallSheet::account),
            drill.balance().conditionings().stream()
                .map(
                    step ->
                        row(
                            "conditioning difference",
                            "",
                            "",
                            step.differenceKg(),
                            "",
                            "",
                            step.factId(),
                            step.off() ? "beyond tolerance" : "")),
            Stream.of(drill.back(), drill.forward())
                .flatMap(
                    trace ->
                        trace.edges().stream()
                            .map(
                                edge ->
                                    row(
                                        trace.direction(),
                                        edge.child(),
                                        "",
                                        edge.massKg(),
                                        "",
                                        edge.happenedAt().toString(),
                                        edge.factId(),
                                        edge.by() + " from " + edge.parent()))),
            drill.looseEnds().stream()
                .map(
                    end ->
                        line(
                            List.of(
                                end.unresolved() ? "unresolved" : "open",
                                end.subject().subject(),
                                "",
                                "",
                                "",
                                "",
                                end.factId(),
                                end.sentence()))))
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
    return Stream.of(
        line(List.of("drill", start, "", "", "", drill.asOf().answeredAt().toString(), "", state)),
        row("in", start, "", balance.inKg(), "", "", "", ""),
        row("to customers", start, "", balance.toCustomersKg(), "", "", "", ""),
        row("sown", start, "", balance.sownKg(), "", "", "", ""),
        row("to other lots", start, "", balance.toOtherLotsKg(), "", "", "", ""),
        row("stock", start, "", balance.stockKg(), "", "", "", balance.lotsCounted() + " counted"),
        row(
            "loss",
            start,
            "",
            balance.lossKg(),
            "",
            "",
            "",
            "screenings and drying; " + balance.unrecordedLossKg() + " kg not on record"),
        row(
            "difference",
            start,
            "",
            balance.differenceKg(),
            "",
            "",
            "",
            "%s; tolerance %s %% (%s)"
                .formatted(
                    balance.balances() ? "balances" : "DOES NOT BALANCE",
                    balance.tolerancePercent(),
                    balance.toleranceSource())));
  }

  private static Stream<String> account(RecallView.LotView lot) {
    String subject = lot.lot().subject();
    return Stream.of(
        row("lot in", subject, "", lot.inKg(), "", "", "", ""),
        row("lot book stock", subject, "", lot.bookStockKg(), "", "", "", ""),
        row(
            "lot difference",
            subject,
            "",
            lot.differenceKg(),
            "",
            "",
            "",
            lot.off() ? "beyond tolerance" : ""));
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
    return Stream.of(
            text(part),
            text(subject),
            text(customer),
            String.format(Locale.ROOT, "%.3f", massKg + 0.0),
            text(labels),
            text(at),
            text(factId),
            text(note))
        .collect(Collectors.joining(",", "", "\r\n"));
  }

  private static String line(List<String> cells) {
    return cells.stream().map(RecallSheet::text).collect(Collectors.joining(",", "", "\r\n"));
  }

  private static String text(String text) {
    boolean couldBeFormula = !text.isEmpty() && BEGINNINGS.indexOf(text.charAt(0)) >= 0;
    return '"' + (couldBeFormula ? "'" : "") + text.replace("\"", "\"\"") + '"';
  }

  private static String id(String subject) {
    return Subject.parse(subject).id();
  }
}
