package org.kornspur.processors.judging;

import java.util.Optional;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.LaboratoryResults;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.dossier.SeedMeasures.Mean;

/**
 * What a blend needs to know of a lot, from the lot's latest tests; a part split from a lot rests
 * on that lot's tests until it has its own. Tests of laboratories that are not declared for them
 * measure nothing.
 */
public final class Measures {

  private Measures() {}

  /** Thousand-kernel weight in grams and germination in percent, as far as they are known. */
  public static SeedMeasures of(Dossier dossier) {
    Dossier lot = dossier.of(entry -> LaboratoryResults.isDeclared(dossier, entry.fact()));
    Optional<Mean> kernelWeight = lot.latest(KernelWeightTest.class).map(Measures::kernelWeight);
    Optional<Mean> germination = lot.latest(GerminationTest.class).map(Measures::germination);
    Optional<SeedMeasures> splitFrom =
        lot.edgesIn().stream()
            .filter(edge -> edge.by() == FactType.LOT_SPLIT)
            .flatMap(edge -> lot.parent(edge.parent()).stream())
            .map(Report.FromParent::measures)
            .findFirst();
    return new SeedMeasures(
        kernelWeight.or(() -> splitFrom.flatMap(SeedMeasures::thousandKernelWeightG)),
        germination.or(() -> splitFrom.flatMap(SeedMeasures::germinationPercent)));
  }

  private static Mean kernelWeight(KernelWeightTest test) {
    double kernels = test.getReplicates().stream().mapToInt(WeighedKernels::getKernels).sum();
    double massG = test.getReplicates().stream().mapToDouble(WeighedKernels::getMassG).sum();
    double mean = 1000 * massG / kernels;
    int n = test.getReplicates().size();
    double sumOfSquares =
        test.getReplicates().stream()
            .mapToDouble(replicate -> 1000 * replicate.getMassG() / replicate.getKernels() - mean)
            .map(deviation -> deviation * deviation)
            .sum();
    double standardError = n > 1 ? Math.sqrt(sumOfSquares / (n - 1) / n) : 0;
    return estimate("thousand-kernel weight", mean, standardError, test.getHeader());
  }

  private static Mean germination(GerminationTest test) {
    double seeds = test.getReplicates().stream().mapToInt(GerminationReplicate::getSeeds).sum();
    double normal =
        test.getReplicates().stream().mapToInt(GerminationReplicate::getNormalSeedlings).sum();
    double share = normal / seeds;
    // more seedlings than seeds have no binomial error, and the mean alone shows that they cannot
    // be
    double variance = Math.max(0, share * (1 - share) / seeds);
    return estimate("germination", 100 * share, 100 * Math.sqrt(variance), test.getHeader());
  }

  private static Mean estimate(String what, double mean, double standardError, FactHeader header) {
    if (!Double.isFinite(mean) || !Double.isFinite(standardError)) {
      throw new IllegalArgumentException(
          "The %s of fact %s comes to %s with a standard error of %s"
              .formatted(what, header.getFactId(), mean, standardError));
    }
    return new Mean(mean, standardError, header.getFactId());
  }
}
