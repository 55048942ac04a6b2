package org.kornspur.processors.dossier;

import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.ShareBasis;
import org.kornspur.processors.statistics.BlendShare;
import org.kornspur.processors.statistics.Estimate;

/** What tests measured of a lot and a blend of it needs to know. */
public record SeedMeasures(
    Optional<Mean> thousandKernelWeightG, Optional<Mean> germinationPercent) {

  /** A mean with its standard error, in the unit that the name of the holder gives. */
  public record Mean(double mean, double standardError, String factId) {}

  /** Facts that a share on a basis rests on. */
  public Stream<String> factIds(ShareBasis basis) {
    return Stream.concat(
            thousandKernelWeightG.filter(weight -> basis != ShareBasis.MASS).stream(),
            germinationPercent.filter(percent -> basis == ShareBasis.VIABLE_KERNELS).stream())
        .map(Mean::factId);
  }

  /**
   * A lot as part of a mixture. What the basis does not ask for is left at 1 and does not count;
   * the mass is taken as exact.
   *
   * @throws java.util.NoSuchElementException where a test is missing that the basis asks for
   */
  public BlendShare.Part part(boolean pollinator, double massKg, ShareBasis basis) {
    return new BlendShare.Part(
        pollinator,
        Estimate.exact(massKg),
        basis == ShareBasis.MASS ? Estimate.exact(1) : measured(thousandKernelWeightG, 1),
        basis == ShareBasis.VIABLE_KERNELS ? measured(germinationPercent, 100) : Estimate.exact(1));
  }

  private static Estimate measured(Optional<Mean> measured, double per) {
    Mean found = measured.orElseThrow();
    return new Estimate(found.mean() / per, found.standardError() / per, found.factId());
  }

  public static SeedMeasures none() {
    return new SeedMeasures(Optional.empty(), Optional.empty());
  }
}
