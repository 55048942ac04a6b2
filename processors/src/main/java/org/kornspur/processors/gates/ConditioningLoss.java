package org.kornspur.processors.gates;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.Conditioning;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.balance.ConditioningAccount;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.LotFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Verdict;

/**
 * What a conditioning lost, percent of what went in: without a record, as screenings, as water, and
 * in all. Beyond what is usual the record is corrected; what was recorded rightly is confirmed by a
 * correction that gives the reason. Common practice, no source.
 */
final class ConditioningLoss {
  private ConditioningLoss() {}

  /** What is owed for a loss; the verdict on the balance where it is usual or fails already. */
  static Verdict orElse(SeedLot lot, Conditioning conditioning, Verdict balance) {
    ConditioningAccount account = ConditioningAccount.of(conditioning);
    Fact fact = new Fact(account.factId());
    boolean isExplained = conditioning.getHeader().getCorrection() != null;
    if (!(balance instanceof Verdict.Met met)) {
      return balance;
    }
    Evidence reason = new Evidence.CorrectionOrReason(fact);
    return owed(
            lot,
            met,
            Quantity.UNRECORDED_LOSS_MOST,
            account.unrecordedLossKg() / account.inputKg(),
            new Evidence.Correction(List.of(fact)))
        .or(
            () ->
                recorded(account).entrySet().stream()
                    .filter(lost -> !isExplained)
                    .flatMap(
                        lost -> owed(lot, met, lost.getKey(), lost.getValue(), reason).stream())
                    .findFirst())
        .orElse(met);
  }

  /** Shares of what went in that have a record, by the limit that each is held to. */
  private static Map<Quantity, Double> recorded(ConditioningAccount account) {
    return new EnumMap<>(
        Map.of(
            Quantity.SCREENINGS_MOST, account.screeningsKg() / account.inputKg(),
            Quantity.DRYING_LOSS_MOST, account.dryingLossKg() / account.inputKg(),
            Quantity.CONDITIONING_LOSS_MOST, account.lossKg() / account.inputKg()));
  }

  private static Optional<Verdict> owed(
      SeedLot lot, Verdict.Met balance, Quantity what, double share, Evidence evidence) {
    return lot.limit(what)
        .filter(limit -> !limit.holds(100 * share))
        .map(
            limit ->
                balance.owing(
                    List.of(evidence.coded()),
                    Optional.of(limit),
                    said(balance, what, share, limit)));
  }

  private static List<Coded> said(Verdict balance, Quantity what, double share, Limit limit) {
    return Stream.concat(
            Stream.of(
                new LotFinding.ConditioningLost(
                        what, Amount.percent(100 * share), Bound.cited(limit))
                    .coded()),
            balance.findings().stream())
        .toList();
  }
}
