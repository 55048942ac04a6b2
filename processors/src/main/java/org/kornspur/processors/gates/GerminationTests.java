package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kornspur.contract.GerminationTest;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.BasisFinding.SetAside;
import org.kornspur.processors.finding.WhySetAside;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.GerminationRetests;
import org.kornspur.processors.statistics.Replicate;
import org.kornspur.processors.statistics.ReplicateTolerance;

/**
 * Which germination tests of a lot are held against each other. A test with too few seeds, and one
 * that had grown too old when a newer one was made, is set aside; so are older samples where a
 * newer one is worse than all of them, for an old result makes a later, worse one no better.
 *
 * @param compared by day, the newest last; empty where no test has enough seeds
 * @param setAside what was looked at and does not count
 */
record GerminationTests(List<GerminationTest> compared, List<SetAside> setAside) {

  private static final int MOST_TESTS_OF_A_SAMPLE = 3;

  /**
   * Of all tests of a lot.
   *
   * @param tests by day
   * @param leastSeeds of a test; empty where the book asks for none
   * @param ageMonths for how many months a test is good; empty where nothing says
   */
  static GerminationTests of(
      List<GerminationTest> tests, Optional<Limit> leastSeeds, Optional<Limit> ageMonths) {
    List<SetAside> aside = new ArrayList<>();
    List<GerminationTest> enough = new ArrayList<>();
    for (GerminationTest test : tests) {
      if (leastSeeds.filter(least -> !least.holds(result(test).seeds())).isPresent()) {
        aside.add(setAside(test, WhySetAside.TOO_FEW_SEEDS));
      } else {
        enough.add(test);
      }
    }
    if (enough.isEmpty()) {
      return new GerminationTests(List.of(), List.copyOf(aside));
    }
    GerminationTest newest = enough.get(enough.size() - 1);
    List<GerminationTest> young = new ArrayList<>();
    for (GerminationTest test : enough) {
      boolean isOld =
          ageMonths.map(age -> FactType.dayOf(newest).isAfter(goodUntil(test, age))).orElse(false);
      if (isOld) {
        aside.add(setAside(test, WhySetAside.TOO_OLD));
      } else {
        young.add(test);
      }
    }
    return withoutBetterOlder(withoutExhausted(young, aside), aside);
  }

  /**
   * Whether so many tests of one sample were made that a further one settles nothing: three or
   * more, which do not agree (International Rules for Seed Testing, chapter 5, retesting, from
   * memory: three tests at most).
   */
  static boolean isExhausted(List<GerminationTest> tests) {
    String newest = tests.get(tests.size() - 1).getSampleId();
    List<GerminationTest> ofNewest =
        tests.stream().filter(test -> test.getSampleId().equals(newest)).toList();
    return ofNewest.size() >= MOST_TESTS_OF_A_SAMPLE
        && GerminationRetests.judge(ofNewest.stream().map(GerminationTests::result).toList())
            instanceof GerminationRetests.Outcome.Apart;
  }

  /** Older samples of which no tests agree, where a newer one was tested in their place. */
  private static List<GerminationTest> withoutExhausted(
      List<GerminationTest> young, List<SetAside> aside) {
    String newest = young.get(young.size() - 1).getSampleId();
    List<GerminationTest> left = new ArrayList<>();
    for (GerminationTest test : young) {
      boolean isReplaced =
          !test.getSampleId().equals(newest)
              && isExhausted(
                  young.stream()
                      .filter(other -> other.getSampleId().equals(test.getSampleId()))
                      .toList());
      if (isReplaced) {
        aside.add(setAside(test, WhySetAside.SAMPLE_WITHOUT_AGREEMENT));
      } else {
        left.add(test);
      }
    }
    return left;
  }

  private static GerminationTests withoutBetterOlder(
      List<GerminationTest> young, List<SetAside> aside) {
    String newestSample = young.get(young.size() - 1).getSampleId();
    List<GerminationTest> ofNewest = new ArrayList<>();
    List<GerminationTest> older = new ArrayList<>();
    for (GerminationTest test : young) {
      (test.getSampleId().equals(newestSample) ? ofNewest : older).add(test);
    }
    double newest =
        GerminationRetests.pooled(ofNewest.stream().map(GerminationTests::result).toList());
    OptionalDouble lowestBefore = older.stream().mapToDouble(test -> result(test).percent()).min();
    boolean isWorst = lowestBefore.isPresent() && newest < lowestBefore.getAsDouble();
    if (isWorst) {
      older.forEach(test -> aside.add(setAside(test, WhySetAside.NEWER_IS_WORSE)));
    }
    return new GerminationTests(List.copyOf(isWorst ? ofNewest : young), List.copyOf(aside));
  }

  /** The test with the replicates as the statistics take them. */
  static GerminationRetests.Test result(GerminationTest test) {
    return new GerminationRetests.Test(
        test.getHeader().getFactId(),
        test.getReplicates().stream()
            .map(replicate -> new Replicate(replicate.getSeeds(), replicate.getNormalSeedlings()))
            .toList());
  }

  static SetAside setAside(GerminationTest test, WhySetAside why) {
    return setAside(result(test), why);
  }

  static SetAside setAside(GerminationRetests.Test test, WhySetAside why) {
    return new BasisFinding.SetAside(new Fact(test.id()), Amount.percent(test.wholePercent()), why);
  }

  /** Whether replicates lie too far apart; those that no table compares need not. */
  static boolean areApart(GerminationTest test) {
    return ReplicateTolerance.judge(result(test).replicates()) instanceof Agreement.Disagrees;
  }

  /**
   * Last day on which a test is good: months are counted from the end of the month in which it was
   * made, as 7 CFR 201.30a counts them.
   */
  static LocalDate goodUntil(GerminationTest test, Limit ageMonths) {
    return YearMonth.from(FactType.dayOf(test)).plusMonths((long) ageMonths.value()).atEndOfMonth();
  }
}
