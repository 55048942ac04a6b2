package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.GerminationTest;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
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
 * further test is owed if not.
 */
final class Germination implements GateRule {
  private static final double CONFIDENCE = 0.95;

  @Override
  public Gate gate() {
    return Gate.GERMINATION;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.toBeUsed(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.GERMINATION).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<GerminationTest> tests = lot.dossier().facts(GerminationTest.class);
    if (tests.isEmpty()) {
      return lot.verdictsOfUnsplitOr(
          Gate.GERMINATION,
          () -> Finding.missing(Gate.GERMINATION, "", limit, "a germination test"));
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
                Finding.impossible(
                    Gate.GERMINATION,
                    "",
                    limit,
                    replicate.getNormalSeedlings(),
                    replicate.getSeeds(),
                    "normal seedlings in a replicate",
                    id(test)));
  }

  private static Optional<Verdict> tooFewSeeds(SeedLot lot, GerminationTest test) {
    int seeds = seeds(replicates(test));
    return lot.limit(Quantity.GERMINATION_SEEDS)
        .filter(least -> !least.holds(seeds))
        .map(
            least ->
                finding(test)
                    .owed(
                        least,
                        "a test of at least %s seeds".formatted(Wording.number(least.value())),
                        Counted.of(seeds, "seed( is|s are) too few to judge by")));
  }

  private static Optional<Verdict> tooFarApart(GerminationTest test, Limit limit) {
    Outcome outcome = ReplicateTolerance.judge(replicates(test));
    if (outcome instanceof Outcome.Exceeded exceeded) {
      return Optional.of(
          finding(test)
              .owed(
                  limit,
                  "a retest, four replicates of 100",
                  "its replicates lie %s apart, where at most %d are tolerated (%s)"
                      .formatted(
                          Counted.of(exceeded.rangePercent(), "percentage point(s)"),
                          exceeded.toleratedPercent(),
                          exceeded.source().cited())));
    }
    if (outcome instanceof Outcome.NotTabulated none) {
      return Optional.of(
          finding(test)
              .owed(
                  limit,
                  "a test of four replicates of 100",
                  "its replicates cannot be compared: " + withoutFullStop(none.reason())));
    }
    return Optional.empty();
  }

  private static Verdict counted(
      SeedLot lot, Limit limit, GerminationTest latest, Optional<GerminationTest> repeated) {
    if (repeated.isEmpty()) {
      return finding(latest).against(limit, remedy(lot));
    }
    int first = GerminationMean.wholePercent(replicates(repeated.get()));
    int second = GerminationMean.wholePercent(replicates(latest));
    Agreement agreement =
        TestCompatibility.compare(
            first, seeds(replicates(repeated.get())), second, seeds(replicates(latest)));
    if (agreement instanceof Agreement.Disagrees apart) {
      return finding(latest)
          .owed(
              limit,
              "a further test",
              "the test that it repeats gave %d %%, and %s between them where at most %s are tolerated (%s)"
                  .formatted(
                      first,
                      Wording.number(apart.difference())
                          + Counted.noun(apart.difference(), " percentage point( lies|s lie)"),
                      Wording.number(apart.tolerated()),
                      apart.source().cited()));
    }
    if (agreement instanceof Agreement.Agrees) {
      int mean = Rounding.wholePercent((first + second) / 2.0);
      return new Finding(
              Gate.GERMINATION,
              "",
              mean,
              Optional.empty(),
              List.of(id(repeated.get()), id(latest)),
              "Germination is %d %%, the mean of two tests that agree (%d and %d %%)"
                  .formatted(mean, first, second))
          .against(limit, remedy(lot));
    }
    return finding(latest).against(limit, remedy(lot));
  }

  private static Finding finding(GerminationTest test) {
    List<Replicate> replicates = replicates(test);
    int seeds = seeds(replicates);
    int normal = replicates.stream().mapToInt(Replicate::normalSeedlings).reduce(0, Math::addExact);
    int percent = GerminationMean.wholePercent(replicates);
    return new Finding(
        Gate.GERMINATION,
        "",
        percent,
        Optional.of(Finding.measuredPercent(ExactBinomial.interval(normal, seeds, CONFIDENCE))),
        List.of(id(test)),
        "Germination is %d %% (%s of %s)"
            .formatted(
                percent, Counted.of(normal, "normal seedling(s)"), Counted.of(seeds, "seed(s)")));
  }

  private static String remedy(SeedLot lot) {
    return lot.remedy(
        lot.material().category() == Category.BASIC
            ? "Condition the lot again and have it sampled anew; basic seed below the limit may go"
                + " only if its label states the real value, and the certification authority"
                + " decides."
            : "Condition the lot again and have it sampled anew, or do not sell it as seed.");
  }

  private static String withoutFullStop(String sentence) {
    return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
  }

  private static List<Replicate> replicates(GerminationTest test) {
    return test.getReplicates().stream()
        .map(replicate -> new Replicate(replicate.getSeeds(), replicate.getNormalSeedlings()))
        .toList();
  }

  private static int seeds(List<Replicate> replicates) {
    return replicates.stream().mapToInt(Replicate::seeds).reduce(0, Math::addExact);
  }

  private static String id(GerminationTest test) {
    return test.getHeader().getFactId();
  }
}
