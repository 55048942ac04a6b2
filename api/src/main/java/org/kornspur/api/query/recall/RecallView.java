package org.kornspur.api.query.recall;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.ConditioningAccount;
import org.kornspur.processors.balance.LotAccount;
import org.kornspur.processors.balance.MassBalance;
import org.kornspur.processors.recall.Delivery;
import org.kornspur.processors.recall.LooseEnd;
import org.kornspur.processors.recall.RecallDrill;

@Schema(description = "A recall drill: back, forward, and whether the masses add up")
public record RecallView(
    SubjectLink start,
    @Schema(description = "False where a walk stopped, a link is unresolved or data lags")
        boolean complete,
    @Schema(description = "Why it is incomplete, a sentence each; empty where it is complete")
        List<String> incompleteBecause,
    @Schema(description = "Time that both walks and the balance took, milliseconds")
        double elapsedMs,
    TraceView back,
    TraceView forward,
    List<CustomerView> customers,
    List<DeliveryView> deliveries,
    BalanceView balance,
    @Schema(description = "Where the walks cannot be followed on") List<LooseEndView> looseEnds,
    @Schema(description = "Refused inputs that wait in the quarantine; a link may be among them")
        long heldInQuarantine,
    AsOf asOf) {

  @Schema(description = "What one customer got")
  public record CustomerView(SubjectLink customer, double massKg, int labelNumbers) {}

  @Schema(description = "What left for a customer at one time")
  public record DeliveryView(
      SubjectLink customer,
      SubjectLink lot,
      double massKg,
      @Schema(description = "As recorded; two numbers of one series are the first and the last")
          List<String> labelNumbers,
      Instant happenedAt,
      String factId) {

    static DeliveryView of(Delivery delivery) {
      return new DeliveryView(
          SubjectLink.of(Subject.enterprise(delivery.customerId())),
          SubjectLink.of(Subject.lot(delivery.lotId())),
          delivery.massKg(),
          delivery.labelNumbers(),
          delivery.happenedAt(),
          delivery.factId());
    }
  }

  @Schema(
      description =
          "Mass balance of the lot and of all that it went into, kilograms: in = out + stock +"
              + " loss + difference")
  public record BalanceView(
      boolean balances,
      double inKg,
      double declaredKg,
      double harvestedKg,
      @Schema(description = "Out of lots that are not in this trace") double fromOtherLotsKg,
      double outKg,
      double toCustomersKg,
      double sownKg,
      @Schema(description = "Into lots beyond the bound of the walk") double toOtherLotsKg,
      @Schema(description = "As counted; for lots that nobody counted, what the books leave")
          double stockKg,
      @Schema(description = "Lots whose stock was counted") long lotsCounted,
      @Schema(description = "Lost in conditioning: screenings, drying, and what is not on record")
          double lossKg,
      @Schema(description = "Of the loss, what is on record neither as screenings nor as drying")
          double unrecordedLossKg,
      @Schema(description = "Missing where positive, too much where negative") double differenceKg,
      @Schema(description = "Difference that is within tolerance") double allowedKg,
      double tolerancePercent,
      @Schema(description = "Where the tolerance stands") String toleranceSource,
      List<LotView> lots,
      List<ConditioningView> conditionings) {

    static BalanceView of(MassBalance balance) {
      List<LotAccount> lotsOff = balance.lotsOff();
      List<ConditioningAccount> conditioningsOff = balance.conditioningsOff();
      return new BalanceView(
          balance.balances(),
          balance.inKg(),
          balance.declaredKg(),
          balance.harvestedKg(),
          balance.fromOtherLotsKg(),
          balance.outKg(),
          balance.toCustomersKg(),
          balance.sownKg(),
          balance.toOtherLotsKg(),
          balance.stockKg(),
          balance.lotsCounted(),
          balance.lossKg(),
          balance.unrecordedLossKg(),
          balance.differenceKg(),
          balance.allowedKg(),
          balance.tolerance().percent(),
          balance.tolerance().source(),
          balance.lots().stream().map(lot -> LotView.of(lot, lotsOff.contains(lot))).toList(),
          balance.conditionings().stream()
              .map(step -> ConditioningView.of(step, conditioningsOff.contains(step)))
              .toList());
    }
  }

  @Schema(description = "Mass account of one lot, kilograms")
  public record LotView(
      SubjectLink lot,
      String id,
      double inKg,
      double toCustomersKg,
      double sownKg,
      double intoLotsKg,
      @Schema(description = "What the books leave; negative where more went out than came in")
          double bookStockKg,
      @Schema(nullable = true, description = "Null where nobody counted") Double countedStockKg,
      double differenceKg,
      @Schema(description = "Whether it is off by more than the tolerance") boolean off) {

    static LotView of(LotAccount account, boolean off) {
      return new LotView(
          SubjectLink.of(Subject.lot(account.lotId())),
          account.lotId(),
          account.inKg(),
          account.toCustomersKg(),
          account.sownKg(),
          account.intoLotsKg(),
          account.bookStockKg(),
          account.countedStockKg().isPresent() ? account.countedStockKg().getAsDouble() : null,
          account.differenceKg(),
          off);
    }
  }

  @Schema(description = "Mass account of one conditioning, kilograms")
  public record ConditioningView(
      String factId,
      double inputKg,
      double outputKg,
      double screeningsKg,
      double dryingLossKg,
      @Schema(description = "What went in and came out as nothing that is on record")
          double unrecordedLossKg,
      @Schema(description = "Negative where more came out than went in, else 0")
          double differenceKg,
      @Schema(description = "Whether it is off by more than the tolerance") boolean off) {

    static ConditioningView of(ConditioningAccount account, boolean off) {
      return new ConditioningView(
          account.factId(),
          account.inputKg(),
          account.outputKg(),
          account.screeningsKg(),
          account.dryingLossKg(),
          account.unrecordedLossKg(),
          account.differenceKg(),
          off);
    }
  }

  @Schema(description = "Where a walk cannot be followed on")
  public record LooseEndView(
      SubjectLink subject,
      LooseEnd.Kind kind,
      @Schema(description = "Whether the drill is incomplete for it") boolean unresolved,
      @Schema(description = "Empty where it is the absence of a fact") String factId,
      String sentence) {

    static LooseEndView of(LooseEnd end, ReaderWords words) {
      return new LooseEndView(
          SubjectLink.of(end.subject()),
          end.kind(),
          end.kind().isUnresolved(),
          end.factId(),
          words.plain(RecallStatement.of(end)));
    }
  }

  static RecallView of(
      RecallDrill drill,
      TraceView back,
      TraceView forward,
      Visibility visibility,
      ReaderWords words,
      double elapsedMs,
      long heldInQuarantine,
      AsOf asOf) {
    List<String> because =
        incompleteBecause(drill, visibility, asOf).stream().map(words::plain).toList();
    return new RecallView(
        SubjectLink.of(drill.back().start()),
        because.isEmpty(),
        because,
        elapsedMs,
        back,
        forward,
        customers(drill),
        drill.deliveries().stream().map(DeliveryView::of).toList(),
        BalanceView.of(drill.balance()),
        drill.looseEnds().stream()
            .filter(end -> visibility.sees(end.subject()))
            .map(end -> LooseEndView.of(end, words))
            .toList(),
        heldInQuarantine,
        asOf);
  }

  private static List<RecallStatement> incompleteBecause(
      RecallDrill drill, Visibility visibility, AsOf asOf) {
    List<RecallStatement> because = new ArrayList<>();
    if (!drill.back().complete()) {
      because.add(new RecallStatement.StoppedBack(drill.back().steps().size()));
    }
    if (!drill.forward().complete()) {
      because.add(new RecallStatement.StoppedForward(drill.forward().steps().size()));
    }
    if (seedOf(drill).anyMatch(subject -> !visibility.sees(subject))) {
      because.add(new RecallStatement.EndsBeyondSight());
    }
    long unresolved =
        drill.unresolved().stream().filter(end -> visibility.sees(end.subject())).count();
    if (unresolved > 0) {
      because.add(new RecallStatement.Unresolved(Math.toIntExact(unresolved)));
    }
    if (!asOf.complete()) {
      because.add(new RecallStatement.NotAllProcessed());
    }
    return List.copyOf(because);
  }

  private static Stream<Subject> seedOf(RecallDrill drill) {
    return Stream.of(drill.back(), drill.forward())
        .flatMap(trace -> trace.steps().keySet().stream())
        .filter(subject -> subject.kind().isJudged());
  }

  private static List<CustomerView> customers(RecallDrill drill) {
    Map<String, Integer> labels =
        drill.deliveries().stream()
            .collect(
                Collectors.groupingBy(
                    Delivery::customerId,
                    Collectors.summingInt(delivery -> delivery.labelNumbers().size())));
    return drill.kgByCustomer().entrySet().stream()
        .map(
            customer ->
                new CustomerView(
                    SubjectLink.of(Subject.enterprise(customer.getKey())),
                    customer.getValue(),
                    labels.get(customer.getKey())))
        .toList();
  }
}
