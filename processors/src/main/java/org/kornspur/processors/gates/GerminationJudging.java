package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.GerminationTest;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.BasisFinding.SetAside;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.finding.WhySetAside;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.GerminationRetests;
import org.kornspur.processors.statistics.GerminationRetests.Outcome.Apart;
import org.kornspur.processors.statistics.GerminationRetests.Outcome.Counted;
import org.kornspur.processors.statistics.GerminationRetests.Outcome.Lowest;
import org.kornspur.processors.statistics.ReplicateTolerance;
import org.kornspur.processors.statistics.Rounding;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/** The germination tests of one lot held against one limit, as {@link GerminationGate} says. */
record GerminationJudging(SeedLot lot, Limit limit, List<GerminationTest> tests) {
  private static final double CONFIDENCE = 0.95;

  Verdict verdict() {
    GerminationTests chosen =
        GerminationTests.of(
            tests, lot.limit(Quantity.GERMINATION_SEEDS), GerminationAge.limit(lot));
    if (chosen.compared().isEmpty()) {
      return tooFewSeeds(tests.get(tests.size() - 1));
    }
    GerminationTest newest = chosen.compared().get(chosen.compared().size() - 1);
    return failed().or(() -> tooFarApart(newest, chosen)).orElseGet(() -> together(chosen, newest));
  }

  private boolean isMinimum() {
    return limit.quantity() != Quantity.GERMINATION_SEEDS;
  }

  private Verdict tooFewSeeds(GerminationTest newest) {
    int seeds = GerminationTests.result(newest).seeds();
    Limit least = lot.limit(Quantity.GERMINATION_SEEDS).orElseThrow();
    return found(GerminationTests.result(newest))
        .and(new GerminationFinding.TooFewSeeds(seeds))
        .and(asideBut(newest.getHeader().getFactId(), WhySetAside.TOO_FEW_SEEDS))
        .owed(least, new Evidence.GerminationTestOfSeeds(new Amount(least.value(), "seeds")));
  }

  /** The lowest whole test that fails; it stands whatever others say. */
  private Optional<Verdict> failed() {
    if (!isMinimum()) {
      return Optional.empty();
    }
    Optional<Limit> leastSeeds = lot.limit(Quantity.GERMINATION_SEEDS);
    return tests.stream()
        .filter(test -> !GerminationTests.areApart(test))
        .map(GerminationTests::result)
        .filter(test -> leastSeeds.map(least -> least.holds(test.seeds())).orElse(true))
        .filter(test -> !limit.holds(test.wholePercent()))
        .min(Comparator.comparingDouble(GerminationRetests.Test::percent))
        .map(
            lowest ->
                found(lowest)
                    .and(asideBut(lowest.id(), WhySetAside.FAILURE_STANDS))
                    .against(lowest.wholePercent(), limit, remedies()));
  }

  private Optional<Verdict> tooFarApart(GerminationTest newest, GerminationTests chosen) {
    List<SetAside> aside = chosen.setAside();
    Agreement range = ReplicateTolerance.judge(GerminationTests.result(newest).replicates());
    Findings found = found(GerminationTests.result(newest));
    if (range instanceof Agreement.Disagrees exceeded) {
      return Optional.of(
          found
              .and(
                  new GerminationFinding.ReplicatesApart(
                      (int) exceeded.difference(),
                      (int) exceeded.tolerated(),
                      Reference.of(exceeded.source())))
              .and(notSettled(chosen))
              .and(aside)
              .owed(limit, new Evidence.RetestOfFourHundred()));
    }
    if (range instanceof Agreement.NotTabulated none) {
      return Optional.of(
          found
              .and(new GerminationFinding.ReplicatesNotComparable(none.reason()))
              .and(notSettled(chosen))
              .and(aside)
              .owed(limit, new Evidence.TestOfFourHundred()));
    }
    return Optional.empty();
  }

  /** Of tests that do not agree one lies below the minimum. */
  private Optional<Finding> notSettled(GerminationTests chosen) {
    boolean isBelow =
        chosen.compared().stream()
            .map(GerminationTests::result)
            .anyMatch(test -> !limit.holds(test.wholePercent()));
    return isMinimum() && isBelow ? Optional.of(new BasisFinding.NotSettled()) : Optional.empty();
  }

  private Verdict together(GerminationTests chosen, GerminationTest newest) {
    GerminationRetests.Outcome outcome =
        GerminationRetests.judge(chosen.compared().stream().map(GerminationTests::result).toList());
    if (outcome instanceof Apart apart) {
      return found(apart.second())
          .and(
              new GerminationFinding.TestsApart(
                  Amount.percent(apart.first().wholePercent()),
                  Amount.percentagePoints(apart.by().difference()),
                  Amount.percentagePoints(apart.by().tolerated()),
                  Reference.of(apart.by().source())))
          .and(notSettled(chosen))
          .and(chosen.setAside())
          .owed(
              limit,
              GerminationTests.isExhausted(chosen.compared())
                  ? new Evidence.NewSampleForGermination()
                  : new Evidence.FurtherGerminationTest());
    }
    List<SetAside> aside = new ArrayList<>(chosen.setAside());
    List<GerminationRetests.Test> counted;
    if (outcome instanceof Counted several) {
      counted = several.of();
      several
          .setAside()
          .forEach(test -> aside.add(GerminationTests.setAside(test, WhySetAside.DOES_NOT_AGREE)));
    } else {
      Lowest lowest = (Lowest) outcome;
      counted = List.of(lowest.test());
      lowest
          .setAside()
          .forEach(
              test -> aside.add(GerminationTests.setAside(test, WhySetAside.ANOTHER_IS_WORSE)));
    }
    return GerminationAge.of(lot, newest, age -> held(counted, age, aside));
  }

  private Verdict held(
      List<GerminationRetests.Test> counted,
      Optional<? extends Finding> age,
      List<SetAside> aside) {
    int percent = Rounding.wholePercent(GerminationRetests.pooled(counted));
    int normal = counted.stream().mapToInt(GerminationRetests.Test::normalSeedlings).sum();
    int seeds = counted.stream().mapToInt(GerminationRetests.Test::seeds).sum();
    Findings found =
        Findings.of(
                Gate.GERMINATION,
                counted.stream().map(GerminationRetests.Test::id).toList(),
                said(counted, percent, normal, seeds))
            .and(age)
            .and(aside);
    return isMinimum()
        ? found.against(
            percent,
            Optional.of(
                Findings.measuredPercent(ExactBinomial.interval(normal, seeds, CONFIDENCE))),
            limit,
            remedies())
        : found.against(seeds, limit, List.of());
  }

  private static Finding said(
      List<GerminationRetests.Test> counted, int percent, int normal, int seeds) {
    List<Amount> each = counted.stream().map(test -> Amount.percent(test.wholePercent())).toList();
    return switch (counted.size()) {
      case 1 -> new GerminationFinding.Found(each.get(0), normal, seeds);
      case 2 -> new GerminationFinding.MeanOfTwo(Amount.percent(percent), each.get(0), each.get(1));
      default -> new GerminationFinding.MeanOfTests(Amount.percent(percent), each);
    };
  }

  private static Findings found(GerminationRetests.Test test) {
    return Findings.of(
        Gate.GERMINATION,
        List.of(test.id()),
        new GerminationFinding.Found(
            Amount.percent(test.wholePercent()), test.normalSeedlings(), test.seeds()));
  }

  private List<SetAside> asideBut(String factId, WhySetAside why) {
    return tests.stream()
        .filter(test -> !test.getHeader().getFactId().equals(factId))
        .map(test -> GerminationTests.setAside(test, why))
        .toList();
  }

  private List<Advice> remedies() {
    Stream<Advice> again =
        tests.size() > 1 ? Stream.of(new Advice.FailedForGood()) : Stream.empty();
    Stream<Advice> rest =
        lot.material().category() == Category.BASIC
            ? Stream.of(
                new Advice.ConditionAndSample(),
                new Advice.StateRealGermination(),
                new Advice.AuthorityDecides())
            : Stream.of(new Advice.ConditionAndSample(), new Advice.NotAsSeed());
    return lot.remedies(Stream.concat(again, rest).toArray(Advice[]::new));
  }
}
