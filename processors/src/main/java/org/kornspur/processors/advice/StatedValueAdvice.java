package org.kornspur.processors.advice;

import java.util.List;
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
 * @param sentence for a person
 */
public record StatedValueAdvice(String rule, Agreement agreement, String sentence) {

  /**
   * Germination on a label against a later test.
   *
   * @param statedPercent whole percent
   * @param foundPercent whole percent
   * @param seeds seeds of the later test
   */
  public static List<StatedValueAdvice> germination(
      int statedPercent, int foundPercent, int seeds) {
    checkPercent("stated germination", statedPercent);
    checkPercent("germination found", foundPercent);
    return List.of(
        of(
            "stated germination against a later official test, limits of variation",
            LimitsOfVariation.germination(statedPercent, foundPercent)),
        of(
            "stated germination against a test, tolerance to a stated value",
            StatedValueTolerance.compare(statedPercent, foundPercent, seeds)));
  }

  /** Analytical purity on a label against a later test, percent by weight to one decimal. */
  public static List<StatedValueAdvice> purity(double statedPercent, double foundPercent) {
    checkPercent("stated purity", statedPercent);
    checkPercent("purity found", foundPercent);
    return List.of(
        of(
            "stated analytical purity against a later official test, limits of variation",
            LimitsOfVariation.purity(statedPercent, foundPercent)));
  }

  /**
   * Other seeds by number against a later test of a sample of the same weight.
   *
   * @param most greatest number that the standard or label allows
   * @param found number found
   */
  public static List<StatedValueAdvice> otherSeeds(int most, int found) {
    checkCount("number of other seeds allowed", most);
    checkCount("number of other seeds found", found);
    return List.of(
        of(
            "other seeds allowed against a later official test, limits of variation",
            LimitsOfVariation.otherSeeds(most, found)));
  }

  /** Two germination tests of one lot, whole percent. */
  public static List<StatedValueAdvice> twoTests(
      int firstPercent, int firstSeeds, int secondPercent, int secondSeeds) {
    checkPercent("germination of the first test", firstPercent);
    checkPercent("germination of the second test", secondPercent);
    return List.of(
        of(
            "two germination tests of one lot",
            TestCompatibility.compare(firstPercent, firstSeeds, secondPercent, secondSeeds)));
  }

  private static StatedValueAdvice of(String rule, Agreement agreement) {
    return new StatedValueAdvice(rule, agreement, sentence(rule, agreement));
  }

  private static String sentence(String rule, Agreement agreement) {
    if (agreement instanceof Agreement.Agrees agrees) {
      return "The values agree (%s): they differ by %s, tolerated are %s (unit %s; %s)."
          .formatted(
              rule,
              Figures.number(agrees.difference()),
              Figures.number(agrees.tolerated()),
              agrees.unit(),
              agrees.source().cited());
    }
    if (agreement instanceof Agreement.Disagrees disagrees) {
      return "The values do not agree (%s): they differ by %s, tolerated are %s (unit %s; %s). Have a new sample drawn and tested; the certification authority decides what follows."
          .formatted(
              rule,
              Figures.number(disagrees.difference()),
              Figures.number(disagrees.tolerated()),
              disagrees.unit(),
              disagrees.source().cited());
    }
    return ((Agreement.NotTabulated) agreement).reason().coded().code();
  }

  private static void checkPercent(String name, double percent) {
    if (!(percent >= 0 && percent <= 100)) {
      throw new IllegalArgumentException(
          "The %s must lie from 0 to 100 %%; it is %s. Give percent.".formatted(name, percent));
    }
  }

  private static void checkCount(String name, int count) {
    if (count < 0) {
      throw new IllegalArgumentException(
          "The %s must be 0 or more; it is %d. Give the count.".formatted(name, count));
    }
  }
}
