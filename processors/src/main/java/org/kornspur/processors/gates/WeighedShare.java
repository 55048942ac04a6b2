package org.kornspur.processors.gates;

import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;

/**
 * Kernels of a mixture that were weighed as they were told apart, by which a count becomes a share
 * of mass. The sampling error is that of the count: beside it the weight of some hundred kernels
 * hardly varies. Common practice, no source.
 *
 * @param pollinatorG grams of a thousand pollinator kernels
 * @param femaleG grams of a thousand of the others
 */
record WeighedShare(double pollinatorG, double femaleG) {

  /** Empty where nothing was weighed, kernels of one component alone were found, or none counts. */
  static Optional<WeighedShare> of(BlendComposition sample, ShareBasis counted, ShareBasis asked) {
    int pollinators = sample.getPollinatorKernels();
    int females = sample.getKernelsExamined() - pollinators;
    boolean isWeighed = sample.getExaminedMassG() != null && sample.getPollinatorMassG() != null;
    return counted == ShareBasis.KERNELS
            && asked == ShareBasis.MASS
            && isWeighed
            && pollinators > 0
            && females > 0
        ? Optional.of(
            new WeighedShare(
                1000 * sample.getPollinatorMassG() / pollinators,
                1000 * (sample.getExaminedMassG() - sample.getPollinatorMassG()) / females))
        : Optional.empty();
  }

  /** By which the ratio of pollinator to female by count is multiplied to have it by mass. */
  double ratioFactor() {
    return pollinatorG / femaleG;
  }

  Finding finding() {
    return new BlendFinding.Weighed(Amount.grams(pollinatorG), Amount.grams(femaleG));
  }

  /** A weight that no kernels of rye have: one of the figures is mistyped. */
  Optional<Finding> unusual(SeedLot lot) {
    return Stream.of(Quantity.KERNEL_WEIGHT_LEAST, Quantity.KERNEL_WEIGHT_MOST)
        .flatMap(quantity -> lot.limit(quantity).stream())
        .flatMap(limit -> Stream.of(pollinatorG, femaleG).flatMap(grams -> beyond(grams, limit)))
        .findFirst();
  }

  private static Stream<Finding> beyond(double grams, Limit limit) {
    return limit.holds(grams)
        ? Stream.empty()
        : Stream.of(
            new OriginFinding.Unusual(limit.quantity(), Amount.grams(grams), Bound.cited(limit)));
  }
}
