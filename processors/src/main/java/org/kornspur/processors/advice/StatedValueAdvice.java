package org.kornspur.processors.advice;

import java.util.List;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.LimitsOfVariation;
import org.kornspur.processors.statistics.StatedValueTolerance;
import org.kornspur.processors.statistics.TestCompatibility;

/**
 * Whether two values of one lot agree: a value that was stated and a later official test, or two
 * tests. Advice, not a gate: limits of variation are no threshold of certification.
 *
 * @param rule what is compared and by which rule
 * @param agreement what the published tolerance says
 * @param sentence the same in a sentence
 */
public record StatedValueAdvice(
    ComparisonStatement rule, Agreement agreement, ComparisonStatement sentence) {

  /**
   * Germination on a label against a later test.
   *
   * @param statedPercent whole percent
   * @param foundPercent whole percent
   * @param seeds seeds of the later test
   */
  public static List<StatedValueAdvice> germination(
      int statedPercent, int foundPercent, int seeds) {
    checkPercent(statedPercent);
    checkPercent(foundPercent);
    return List.of(
        of(
            new ComparisonStatement.LabelGermination(),
            LimitsOfVariation.germination(statedPercent, foundPercent)),
        of(
            new ComparisonStatement.LabelGerminationTolerance(),
            StatedValueTolerance.compare(statedPercent, foundPercent, seeds)));
  }

  /** Analytical purity on a label against a later test, percent by weight to one decimal. */
  public static List<StatedValueAdvice> purity(double statedPercent, double foundPercent) {
    checkPercent(statedPercent);
    checkPercent(foundPercent);
    return List.of(
        of(
            new ComparisonStatement.LabelPurity(),
            LimitsOfVariation.purity(statedPercent, foundPercent)));
  }

  /**
   * Other seeds by number against a later test of a sample of the same weight.
   *
   * @param most greatest number that the standard or label allows
   * @param found number found
   */
  public static List<StatedValueAdvice> otherSeeds(int most, int found) {
    checkCount(most);
    checkCount(found);
    return List.of(
        of(new ComparisonStatement.LabelOtherSeeds(), LimitsOfVariation.otherSeeds(most, found)));
  }

  /** Two germination tests of one lot, whole percent. */
  public static List<StatedValueAdvice> twoTests(
      int firstPercent, int firstSeeds, int secondPercent, int secondSeeds) {
    checkPercent(firstPercent);
    checkPercent(secondPercent);
    return List.of(
        of(
            new ComparisonStatement.TwoTests(),
            TestCompatibility.compare(firstPercent, firstSeeds, secondPercent, secondSeeds)));
  }

  private static StatedValueAdvice of(ComparisonStatement rule, Agreement agreement) {
    return new StatedValueAdvice(rule, agreement, ComparisonStatement.of(rule, agreement));
  }

  private static void checkPercent(double percent) {
    if (!(percent >= 0 && percent <= 100)) {
      throw new AdviceRefusedException(new AdviceRefusal.PercentOutside(Amount.percent(percent)));
    }
  }

  private static void checkCount(int count) {
    if (count < 0) {
      throw new AdviceRefusedException(new AdviceRefusal.NegativeCount(count));
    }
  }
}
