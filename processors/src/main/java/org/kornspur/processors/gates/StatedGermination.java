package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Verdict;

/**
 * Basic seed below the minimum whose label states the real germination. It may go, and only to be
 * multiplied further.
 *
 * <p>Seed Ordinance (SaatV), section 12(3), read: on application, and not below 50 %. Council
 * Directive 66/402/EEC, Annex II, as note (a) of the French transposition has it, names no lower
 * end. A book that asks for a minimum of its own, as a house does, must allow it itself.
 */
final class StatedGermination {

  private StatedGermination() {}

  /**
   * Judges by the minimum, and where that is not met by what the label states.
   *
   * @param by the verdict by a limit
   */
  static Verdict judge(
      SeedLot lot, Limit limit, List<GerminationTest> tests, Function<Limit, Verdict> by) {
    Verdict verdict = by.apply(limit);
    if (!(verdict instanceof Verdict.NotMet)) {
      return verdict;
    }
    Optional<GerminationTest> stated =
        tests.stream()
            .filter(test -> test.getLabelPercent() != null)
            .reduce((earlier, later) -> later);
    return lot.limit(Quantity.GERMINATION_IF_STATED)
        .filter(lower -> lower.rulebookId().equals(limit.rulebookId()))
        .flatMap(
            lower ->
                stated.map(
                    label ->
                        accepted(
                            lot,
                            label,
                            judge(by.apply(lower), lower, label.getLabelPercent()),
                            verdict)))
        .orElse(verdict);
  }

  /**
   * Where the book asks for an application, nothing goes before it is granted. What was granted for
   * the label of another test is no answer for this one.
   */
  private static Verdict accepted(
      SeedLot lot, GerminationTest label, Verdict allowed, Verdict byMinimum) {
    Optional<Limit> application = lot.limit(Quantity.GERMINATION_LABEL_ACCEPTED);
    Optional<Boolean> answer = answerOfAuthority(label);
    if (!(allowed instanceof Verdict.Met met)
        || application.isEmpty()
        || answer.equals(Optional.of(true))) {
      return allowed;
    }
    return answer.isPresent()
        ? byMinimum
        : met.owing(List.of(new Evidence.AcceptedLabel().coded()), application, met.findings());
  }

  /** No grower and no laboratory speaks for the authority: its consent counts by quality's word. */
  private static Optional<Boolean> answerOfAuthority(GerminationTest label) {
    boolean isOfOther =
        SignedSubmissions.of(label)
            .map(Submission::getRole)
            .filter(role -> role == SenderRole.MULTIPLIER || role == SenderRole.LABORATORY)
            .isPresent();
    return Optional.ofNullable(label.getLabelAccepted())
        .filter(accepted -> !(accepted && isOfOther));
  }

  private static Verdict judge(Verdict byLower, Limit lower, int statedPercent) {
    if (!(byLower instanceof Verdict.Met met)) {
      return byLower;
    }
    Amount stated = Amount.percent(statedPercent);
    if (statedPercent > met.measured().value()) {
      return new Verdict.NotMet(
          met.gate(),
          met.aspect(),
          met.about(),
          met.measured(),
          met.limit(),
          met.factIds(),
          with(met.findings(), new GerminationFinding.LabelPromisesMore(stated).coded()),
          List.of(new Advice.StateRealGermination().coded()));
    }
    Coded said = new GerminationFinding.StatedOnLabel(stated, Bound.cited(lower)).coded();
    return met.withFindings(with(met.findings(), said)).with(new Advice.OnlyToMultiply().coded());
  }

  private static List<Coded> with(List<Coded> findings, Coded further) {
    return Stream.concat(findings.stream(), Stream.of(further)).toList();
  }
}
