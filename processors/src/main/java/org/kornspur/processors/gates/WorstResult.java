package org.kornspur.processors.gates;

import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.WhySetAside;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Verdict;

/**
 * Tests of one kind of which each must meet the limit: the worst counts, and the others stand
 * beside it. The International Rules (chapters 3 and 9) report the mean of two results that lie
 * within their tolerances; these tables were not at hand, and the mean of results that all meet the
 * limit meets it too. What failed is not tested until it passes: Seed Ordinance (SaatV), section
 * 12(2).
 */
final class WorstResult {

  private WorstResult() {}

  /**
   * The verdict by the worst of several tests.
   *
   * @param tests one or more, by day
   * @param value what a test comes to, in the unit of the limit
   * @param found what is said of a test
   */
  static <T extends SpecificRecord> Verdict judge(
      List<T> tests,
      ToDoubleFunction<T> value,
      Function<T, Findings> found,
      Limit limit,
      List<Advice> remedies) {
    T worst =
        tests.stream()
            .min(Comparator.comparingDouble(test -> limit.margin(value.applyAsDouble(test))))
            .orElseThrow();
    boolean met = limit.holds(value.applyAsDouble(worst));
    List<BasisFinding.SetAside> others =
        tests.stream()
            .filter(test -> test != worst)
            .map(
                test ->
                    new BasisFinding.SetAside(
                        new Fact(FactType.idOf(test)),
                        new Amount(value.applyAsDouble(test), limit.unit()),
                        met ? WhySetAside.ANOTHER_IS_WORSE : WhySetAside.FAILURE_STANDS))
            .toList();
    return found
        .apply(worst)
        .and(others)
        .against(
            value.applyAsDouble(worst),
            limit,
            others.isEmpty()
                ? remedies
                : Stream.concat(Stream.of(new Advice.FailedForGood()), remedies.stream()).toList());
  }
}
