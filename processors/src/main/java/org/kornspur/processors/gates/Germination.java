package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.GerminationTest;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Found.At;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.GerminationMean;
import org.kornspur.processors.statistics.Replicate;
import org.kornspur.processors.statistics.ReplicateTolerance;
import org.kornspur.processors.statistics.ReplicateTolerance.Outcome;
import org.kornspur.processors.statistics.Rounding;
import org.kornspur.processors.statistics.TestCompatibility;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Germination of pure seed, whole percent.
 *
 * <p>The limit: Council Directive 66/402/EEC, Annex II. The test: 7 CFR 201.54 and 201.55 and the
 * International Rules for Seed Testing. Too few seeds, or replicates further apart than the
 * published range, and a test is owed. The latest test counts; where it repeats an earlier one, by
 * its own word or because it is of the same sample, both count with their mean if they agree, and a
 * further test is owed if not. Under a book with no minimum the test itself is asked for, with as
 * many seeds as the book wants, and its value fails nothing.
 */
final class Germination implements GateRule {
  private static final double CONFIDENCE = 0.95;

  @Override
  public Gate gate() {
    return Gate.GERMINATION;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.tested(dossier, rulebook)
        .flatMap(lot -> asked(lot).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  /** A book that gives no minimum may still ask for a test, and of how many seeds. */
  private static Optional<Limit> asked(SeedLot lot) {
    return lot.limit(Quantity.GERMINATION).or(() -> lot.limit(Quantity.GERMINATION_SEEDS));
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<GerminationTest> tests = lot.dossier().facts(GerminationTest.class);
    if (tests.isEmpty()) {
      return lot.verdictsOfUnsplitOr(
          Gate.GERMINATION,
          () -> Found.missing(Gate.GERMINATION, limit, new Evidence.GerminationTest()));
    }
    GerminationTest latest = tests.get(tests.size() - 1);
    Optional<GerminationTest> repeated = repeatedBy(latest, tests);
    return List.of(
        impossible(latest, limit)
            .or(() -> repeated.flatMap(test -> impossible(test, limit)))
            .or(() -> tooFewSeeds(lot, latest))
            .or(() -> tooFarApart(latest, limit))
            .orElseGet(() -> counted(lot, limit, latest, repeated)));
  }

  private static Optional<GerminationTest> repeatedBy(
      GerminationTest latest, List<GerminationTest> tests) {
    List<GerminationTest> earlier = tests.subList(0, tests.size() - 1);
    return earlier.stream()
        .filter(test -> id(test).equals(latest.getRetestOf()))
        .findFirst()
        .or(
            () ->
                earlier.stream()
                    .filter(test -> test.getSampleId().equals(latest.getSampleId()))
                    .reduce((first, second) -> second));
  }

  private static Optional<Verdict> impossible(GerminationTest test, Limit limit) {
    return test.getReplicates().stream()
        .filter(replicate -> replicate.getNormalSeedlings() > replicate.getSeeds())
        .findFirst()
        .map(
            replicate ->
                Found.impossible(
                    At.gate(Gate.GERMINATION),
                    limit,
                    Thing.NORMAL_SEEDLINGS,
                    replicate.getNormalSeedlings(),
                    replicate.getSeeds(),
                    id(test)));
  }

  private static Optional<Verdict> tooFewSeeds(SeedLot lot, GerminationTest test) {
    int seeds = seeds(replicates(test));
    return lot.limit(Quantity.GERMINATION_SEEDS)
        .filter(least -> !least.holds(seeds))
        .map(
            least ->
                found(test)
                    .and(new GerminationFinding.TooFewSeeds(seeds))
                    .owed(
                        least,
                        new Evidence.GerminationTestOfSeeds(new Amount(least.value(), "seeds"))));
  }

  private static Optional<Verdict> tooFarApart(GerminationTest test, Limit limit) {
    Outcome outcome = ReplicateTolerance.judge(replicates(test));
    if (outcome instanceof Outcome.Exceeded exceeded) {
      return Optional.of(
          found(test)
              .and(
                  new GerminationFinding.ReplicatesApart(
                      exceeded.rangePercent(),
                      exceeded.toleratedPercent(),
                      Reference.of(exceeded.source())))
              .owed(limit, new Evidence.RetestOfFourHundred()));
    }
    if (outcome instanceof Outcome.NotTabulated none) {
      return Optional.of(
          found(test)
              .and(new GerminationFinding.ReplicatesNotComparable(none.reason()))
              .owed(limit, new Evidence.TestOfFourHundred()));
    }
    return Optional.empty();
  }

  private static Verdict counted(
      SeedLot lot, Limit limit, GerminationTest latest, Optional<GerminationTest> repeated) {
    if (repeated.isEmpty()) {
      return byItself(lot, limit, latest);
    }
    int first = GerminationMean.wholePercent(replicates(repeated.get()));
    int second = GerminationMean.wholePercent(replicates(latest));
    Agreement agreement =
        TestCompatibility.compare(
            first, seeds(replicates(repeated.get())), second, seeds(replicates(latest)));
    if (agreement instanceof Agreement.Disagrees apart) {
      return found(latest)
          .and(
              new GerminationFinding.TestsApart(
                  Amount.percent(first),
                  Amount.percentagePoints(apart.difference()),
                  Amount.percentagePoints(apart.tolerated()),
                  Reference.of(apart.source())))
          .owed(limit, new Evidence.FurtherGerminationTest());
    }
    if (agreement instanceof Agreement.Agrees) {
      int mean = Rounding.wholePercent((first + second) / 2.0);
      Found found =
          Found.of(
              Gate.GERMINATION,
              List.of(id(repeated.get()), id(latest)),
              new GerminationFinding.MeanOfTwo(
                  Amount.percent(mean), Amount.percent(first), Amount.percent(second)));
      return isMinimum(limit)
          ? found.against(mean, limit, remedies(lot))
          : found.against(seeds(replicates(latest)), limit, List.of());
    }
    return byItself(lot, limit, latest);
  }

  private static Verdict byItself(SeedLot lot, Limit limit, GerminationTest test) {
    List<Replicate> replicates = replicates(test);
    if (!isMinimum(limit)) {
      return found(test).against(seeds(replicates), limit, List.of());
    }
    return found(test)
        .against(
            GerminationMean.wholePercent(replicates),
            Optional.of(
                Found.measuredPercent(
                    ExactBinomial.interval(normal(replicates), seeds(replicates), CONFIDENCE))),
            limit,
            remedies(lot));
  }

  private static boolean isMinimum(Limit limit) {
    return limit.quantity() == Quantity.GERMINATION;
  }

  private static Found found(GerminationTest test) {
    List<Replicate> replicates = replicates(test);
    return Found.of(
        Gate.GERMINATION,
        List.of(id(test)),
        new GerminationFinding.Found(
            Amount.percent(GerminationMean.wholePercent(replicates)),
            normal(replicates),
            seeds(replicates)));
  }

  private static List<Advice> remedies(SeedLot lot) {
    return lot.material().category() == Category.BASIC
        ? lot.remedies(
            new Advice.ConditionAndSample(),
            new Advice.StateRealGermination(),
            new Advice.AuthorityDecides())
        : lot.remedies(new Advice.ConditionAndSample(), new Advice.NotAsSeed());
  }

  private static List<Replicate> replicates(GerminationTest test) {
    return test.getReplicates().stream()
        .map(replicate -> new Replicate(replicate.getSeeds(), replicate.getNormalSeedlings()))
        .toList();
  }

  private static int normal(List<Replicate> replicates) {
    return replicates.stream().mapToInt(Replicate::normalSeedlings).reduce(0, Math::addExact);
  }

  private static int seeds(List<Replicate> replicates) {
    return replicates.stream().mapToInt(Replicate::seeds).reduce(0, Math::addExact);
  }

  private static String id(GerminationTest test) {
    return test.getHeader().getFactId();
  }
}
