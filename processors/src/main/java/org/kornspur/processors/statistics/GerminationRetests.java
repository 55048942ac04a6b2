package org.kornspur.processors.statistics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * What several germination tests of one lot come to.
 *
 * <p>International Rules for Seed Testing, chapter 5, retesting (from memory, not verified), in
 * this order:
 *
 * <ol>
 *   <li>One test stands by itself.
 *   <li>Two tests that agree by table 5C are reported with their mean; if they do not, a third is
 *       made.
 *   <li>Of three tests the mean of those that agree is reported: of all three, or of two, and then
 *       the third is set aside. Where more than one pair agrees, the lower mean is taken.
 *   <li>Further tests are reported with their mean while all agree.
 * </ol>
 *
 * <p>The mean is pooled over all seeds and rounded once, at the end: 83.5 % and 84.5 % are 84 %.
 * Where no table compares two of the tests, the lowest counts.
 */
public final class GerminationRetests {

  private GerminationRetests() {}

  /**
   * One test.
   *
   * @param id fact that tells of it
   * @param replicates as counted
   */
  public record Test(String id, List<Replicate> replicates) {

    public double percent() {
      return GerminationMean.percent(replicates);
    }

    public int wholePercent() {
      return GerminationMean.wholePercent(replicates);
    }

    public int seeds() {
      return replicates.stream().mapToInt(Replicate::seeds).reduce(0, Math::addExact);
    }

    public int normalSeedlings() {
      return replicates.stream().mapToInt(Replicate::normalSeedlings).reduce(0, Math::addExact);
    }
  }

  /** What is to be reported. */
  public sealed interface Outcome {

    /**
     * The tests that count, and those that do not agree with them.
     *
     * @param of the tests, one or more
     */
    record Counted(List<Test> of, List<Test> setAside) implements Outcome {}

    /** No table compares them, so the lowest counts alone. */
    record Lowest(Test test, List<Test> setAside) implements Outcome {}

    /** They do not agree, and a further test is needed. */
    record Apart(Test first, Test second, Agreement.Disagrees by) implements Outcome {}
  }

  /** Mean of all seeds of some tests, percent, not rounded. */
  public static double pooled(List<Test> tests) {
    return GerminationMean.percent(
        tests.stream().flatMap(test -> test.replicates().stream()).toList());
  }

  /**
   * Judges tests of one lot.
   *
   * @param tests one or more
   */
  public static Outcome judge(List<Test> tests) {
    List<Test[]> agreeing = new ArrayList<>();
    List<Outcome.Apart> apart = new ArrayList<>();
    boolean areComparable = true;
    for (int i = 0; i < tests.size(); i++) {
      for (int j = i + 1; j < tests.size(); j++) {
        Test first = tests.get(i);
        Test second = tests.get(j);
        Agreement agreement =
            TestCompatibility.compare(
                first.wholePercent(), first.seeds(), second.wholePercent(), second.seeds());
        if (agreement instanceof Agreement.NotTabulated) {
          areComparable = false;
        } else if (agreement instanceof Agreement.Disagrees disagrees) {
          apart.add(new Outcome.Apart(first, second, disagrees));
        } else {
          agreeing.add(new Test[] {first, second});
        }
      }
    }
    if (apart.isEmpty() && !areComparable) {
      return lowest(tests);
    }
    if (apart.isEmpty()) {
      return new Outcome.Counted(List.copyOf(tests), List.of());
    }
    if (areComparable && tests.size() == 3 && !agreeing.isEmpty()) {
      List<Test> pair =
          agreeing.stream()
              .map(List::of)
              .min(Comparator.comparingDouble(GerminationRetests::pooled))
              .orElseThrow();
      return new Outcome.Counted(pair, without(tests, pair));
    }
    return apart.stream()
        .max(Comparator.comparingDouble(pair -> pair.by().difference()))
        .orElseThrow();
  }

  private static Outcome lowest(List<Test> tests) {
    Test lowest =
        tests.stream()
            .min(Comparator.comparingDouble(Test::percent).thenComparing(Test::id))
            .orElseThrow();
    return new Outcome.Lowest(lowest, without(tests, List.of(lowest)));
  }

  private static List<Test> without(List<Test> tests, List<Test> some) {
    return tests.stream().filter(test -> !some.contains(test)).toList();
  }
}
