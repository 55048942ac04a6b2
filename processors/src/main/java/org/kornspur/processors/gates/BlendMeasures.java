package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.dossier.SeedMeasures.Mean;
import org.kornspur.processors.dossier.SeedMeasures.OfTest;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.GerminationRetests;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * What a blend needs to know of a lot; a part split from a lot rests on that lot's tests until it
 * has its own, and then they still count in how far it may be off. Only tests of declared
 * laboratories, of samples that stand for the lot, measure it, and all of them: nobody weighs or
 * germinates again until a mixture fits. Germination is what the gate counted; thousand-kernel
 * weight what {@link KernelWeights} makes of all tests together.
 *
 * <p>What is owed all the same is told as in doubt: by it a mixture can fail, and never hold, so
 * that no further test lifts a failure.
 */
public final class BlendMeasures {
  /** What is owed for one of these was counted before. */
  private static final Set<Quantity> COUNTED_THOUGH_OWED =
      Set.of(Quantity.GERMINATION_TEST_AGE, Quantity.GERMINATION_LABEL_ACCEPTED);

  private final SeedLot lot;
  private final List<Sampling> drawn;
  private final Optional<SeedMeasures> unsplit;

  private BlendMeasures(SeedLot lot) {
    this.lot = lot;
    this.drawn = SamplingGate.good(lot.dossier(), lot.rulebook());
    this.unsplit = lot.unsplit().map(Report.FromParent::measures);
  }

  /**
   * Thousand-kernel weight in grams and germination in percent, as far as they are known.
   *
   * @param verdicts what the gates say of the lot
   */
  public static SeedMeasures of(
      Dossier dossier, Optional<? extends Rulebook> rulebook, List<Verdict> verdicts) {
    return rulebook
        .flatMap(book -> SeedLot.of(dossier, book))
        .map(lot -> new BlendMeasures(lot).measures(verdicts))
        .orElseGet(SeedMeasures::none);
  }

  private SeedMeasures measures(List<Verdict> verdicts) {
    Optional<Mean> germination = germination(verdicts);
    List<KernelWeightTest> weighed = lot.dossier().facts(KernelWeightTest.class);
    if (weighed.isEmpty()) {
      return new SeedMeasures(
          unsplit.flatMap(SeedMeasures::thousandKernelWeightG),
          germination,
          unsplit.map(SeedMeasures::setAside).orElse(List.of()));
    }
    List<KernelWeightTest> proving =
        weighed.stream().filter(test -> against(test, test.getSampleId()).isEmpty()).toList();
    KernelWeights weights =
        new KernelWeights(
            lot, weighed, proving, range(unsplit.flatMap(SeedMeasures::thousandKernelWeightG)));
    Stream<Finding> aside =
        weighed.stream().flatMap(test -> against(test, test.getSampleId()).stream());
    return new SeedMeasures(
        weights.mean(),
        germination,
        Stream.concat(aside, weights.unsettled().stream()).map(Statement::coded).toList());
  }

  private Optional<Mean> germination(List<Verdict> verdicts) {
    List<GerminationTest> tests = lot.dossier().facts(GerminationTest.class);
    if (tests.isEmpty()) {
      return unsplit.flatMap(SeedMeasures::germinationPercent);
    }
    List<GerminationTest> proving =
        tests.stream()
            .filter(BlendMeasures::isPossible)
            .filter(test -> against(test, test.getSampleId()).isEmpty())
            .toList();
    if (proving.isEmpty()) {
      return Optional.empty();
    }
    List<GerminationRetests.Test> compared =
        GerminationTests.of(
                proving, lot.limit(Quantity.GERMINATION_SEEDS), GerminationAge.limit(lot))
            .compared()
            .stream()
            .map(GerminationTests::result)
            .toList();
    List<OfTest> ofUnsplit = ofUnsplit(tests.get(tests.size() - 1));
    return verdicts.stream()
        .filter(verdict -> verdict.gate() == Gate.GERMINATION)
        .findFirst()
        .map(verdict -> counted(verdict, proving))
        .orElseGet(() -> counted(compared))
        .flatMap(counted -> mean(counted, ofUnsplit, false))
        .or(() -> mean(compared, ofUnsplit, true));
  }

  /** A test with more seedlings than seeds says nothing and waits for its correction. */
  private static boolean isPossible(GerminationTest test) {
    return test.getReplicates().stream()
        .allMatch(replicate -> replicate.getNormalSeedlings() <= replicate.getSeeds());
  }

  /** What the lot came to that this one was split from, while that was no older than it may be. */
  private List<OfTest> ofUnsplit(GerminationTest newest) {
    boolean isOld =
        lot.unsplit()
            .filter(whole -> GerminationAge.isTooOld(whole.seedVerdicts(), FactType.dayOf(newest)))
            .isPresent();
    return isOld ? List.of() : range(unsplit.flatMap(SeedMeasures::germinationPercent));
  }

  private static List<OfTest> range(Optional<Mean> mean) {
    return mean.stream()
        .flatMap(
            of ->
                of.each().isEmpty()
                    ? Stream.of(new OfTest(of.factId(), of.mean()))
                    : of.each().stream())
        .toList();
  }

  private static Optional<List<GerminationRetests.Test>> counted(
      Verdict verdict, List<GerminationTest> proving) {
    boolean isCounted =
        !(verdict instanceof Verdict.Owed)
            || verdict
                .limit()
                .filter(limit -> COUNTED_THOUGH_OWED.contains(limit.quantity()))
                .isPresent();
    return isCounted
        ? Optional.of(
            proving.stream()
                .map(GerminationTests::result)
                .filter(test -> verdict.factIds().contains(test.id()))
                .toList())
        : Optional.empty();
  }

  /** Where the book asks for no germination, and so no gate counted. */
  private static Optional<List<GerminationRetests.Test>> counted(
      List<GerminationRetests.Test> compared) {
    if (compared.isEmpty()) {
      return Optional.empty();
    }
    GerminationRetests.Outcome outcome = GerminationRetests.judge(compared);
    if (outcome instanceof GerminationRetests.Outcome.Counted several) {
      return Optional.of(several.of());
    }
    return outcome instanceof GerminationRetests.Outcome.Lowest lowest
        ? Optional.of(List.of(lowest.test()))
        : Optional.empty();
  }

  private static Optional<Mean> mean(
      List<GerminationRetests.Test> counted, List<OfTest> ofUnsplit, boolean inDoubt) {
    if (counted.isEmpty()) {
      return Optional.empty();
    }
    double seeds = counted.stream().mapToDouble(GerminationRetests.Test::seeds).sum();
    double share =
        counted.stream().mapToDouble(GerminationRetests.Test::normalSeedlings).sum() / seeds;
    double variance = share * (1 - share) / seeds;
    List<OfTest> each =
        Stream.concat(
                ofUnsplit.stream(),
                counted.stream().map(test -> new OfTest(test.id(), test.percent())))
            .toList();
    return Optional.of(
        Mean.of("germination", 100 * share, 100 * Math.sqrt(variance), each, inDoubt));
  }

  /** Why a test does not measure the lot; empty where it does. */
  private Optional<Finding> against(SpecificRecord test, String sample) {
    return UnprovenResult.ofLaboratory(lot.dossier(), test)
        .or(
            () ->
                lot.limit(Quantity.SUBMITTED_SAMPLE_MASS).isEmpty()
                        || SamplingGate.isOfOne(drawn, test, sample)
                    ? Optional.empty()
                    : Optional.of(UnprovenResult.ofOtherSample(test, sample)))
        .map(UnprovenResult::finding);
  }
}
