package org.kornspur.processors.dossier;

import java.util.Optional;

/** What tests measured of a lot and a blend of it needs to know. */
public record SeedMeasures(
    Optional<Estimate> thousandKernelWeightG, Optional<Estimate> germinationPercent) {

  /** A mean with its standard error, in the unit that the name of the holder gives. */
  public record Estimate(double mean, double standardError, String factId) {}

  public static SeedMeasures none() {
    return new SeedMeasures(Optional.empty(), Optional.empty());
  }
}
