package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.SeedMeasures.Mean;
import org.kornspur.processors.dossier.SeedMeasures.OfTest;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;

/**
 * Thousand-kernel weight of a lot from all its tests together, grams. None is set aside for
 * another, so weighing again moves the mean and does not replace it.
 *
 * <p>International Rules for Seed Testing, chapter 10, from memory: eight replicates of 100, and as
 * many again where their coefficient of variation is over 4 %. That two tests of one lot lie no
 * further apart than that is common practice, no source. What proves nothing for the lot still
 * speaks against it: it counts in how far the tests lie apart, and in nothing else.
 *
 * @param weighed all tests
 * @param proving those that measure the lot
 * @param ofUnsplit what the lot came to that this one was split from: it lies in the range too
 */
record KernelWeights(
    SeedLot lot,
    List<KernelWeightTest> weighed,
    List<KernelWeightTest> proving,
    List<OfTest> ofUnsplit) {
  /** One alone tells nothing of its own error. */
  private static final double LEAST_WITHOUT_BOOK = 2;

  /** Empty where it cannot even be told how far it is off. */
  Optional<Mean> mean() {
    return replicates().size() < LEAST_WITHOUT_BOOK
        ? Optional.empty()
        : Optional.of(
            Mean.of(
                "thousand-kernel weight",
                thousandG(replicates()),
                deviation() / Math.sqrt(replicates().size()),
                Stream.concat(ofUnsplit.stream(), proving.stream().map(KernelWeights::ofTest))
                    .toList(),
                !unsettled().isEmpty()));
  }

  /** Why the weight is not known well enough; nothing where it is. */
  List<Finding> unsettled() {
    Optional<Limit> variation = lot.limit(Quantity.KERNEL_WEIGHT_VARIATION);
    double least =
        lot.limit(Quantity.KERNEL_WEIGHT_REPLICATES).map(Limit::value).orElse(LEAST_WITHOUT_BOOK);
    if (proving.isEmpty()) {
      return List.of(tooFew(least));
    }
    double mean = thousandG(replicates());
    double variationPercent = 100 * deviation() / mean;
    double apartPercent = 100 * range() / mean;
    boolean isEven = variation.map(most -> most.holds(variationPercent)).orElse(true);
    double asked = isEven ? least : 2 * least;
    List<Finding> unsettled = new ArrayList<>();
    if (replicates().size() < asked) {
      unsettled.add(tooFew(asked));
    }
    variation
        .filter(most -> !most.holds(apartPercent))
        .map(
            most ->
                new BlendFinding.KernelWeightsApart(
                    lot.dossier().subject(), Amount.percent(apartPercent), Bound.cited(most)))
        .ifPresent(unsettled::add);
    return unsettled;
  }

  private Finding tooFew(double asked) {
    return new BlendFinding.TooFewReplicates(
        lot.dossier().subject(), replicates().size(), (int) asked);
  }

  private List<WeighedKernels> replicates() {
    return proving.stream().flatMap(test -> test.getReplicates().stream()).toList();
  }

  /** Standard deviation of the replicates, each as a weight of a thousand; 0 of one alone. */
  private double deviation() {
    double mean = thousandG(replicates());
    double squares =
        replicates().stream()
            .mapToDouble(replicate -> thousandG(List.of(replicate)) - mean)
            .map(off -> off * off)
            .sum();
    return Math.sqrt(squares / Math.max(1, replicates().size() - 1));
  }

  private double range() {
    DoubleSummaryStatistics means =
        Stream.concat(ofUnsplit.stream(), weighed.stream().map(KernelWeights::ofTest))
            .mapToDouble(OfTest::mean)
            .summaryStatistics();
    return means.getMax() - means.getMin();
  }

  private static OfTest ofTest(KernelWeightTest test) {
    return new OfTest(FactType.idOf(test), thousandG(test.getReplicates()));
  }

  /** Grams of a thousand kernels, by all replicates together. */
  static double thousandG(List<WeighedKernels> replicates) {
    double kernels = replicates.stream().mapToDouble(WeighedKernels::getKernels).sum();
    return 1000 * replicates.stream().mapToDouble(WeighedKernels::getMassG).sum() / kernels;
  }
}
