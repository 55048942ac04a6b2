package org.kornspur.processors.statistics;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.BetaDistribution;
import org.apache.commons.statistics.distribution.ContinuousDistribution;

/**
 * Forecast of how much of an F1 harvest is hybrid. It is advice, not a gate: no lot passes or fails
 * by it, and marker or post-control results take its place as they come.
 *
 * <p>The seed of a sterile female plant is hybrid where pollen of the pollinator fertilised it.
 * Three clouds of pollen compete: the pollinator's (its share of the plants, times the part of the
 * female's receptive flowering in which it sheds), that of shedding females, and foreign pollen
 * (each source by its extent, kind, overlap of flowering and the pollen kernel). Where the
 * pollinator is harvested with the female, as in a technical mixture, its own seed is in the
 * harvest and is not hybrid.
 *
 * <p>Uncertain inputs are drawn again in each run: shedders from the beta distribution that their
 * count leaves (Jeffreys), the rest from triangular distributions. The same seed gives the same
 * answer, and each run has its own stream in which sources of foreign pollen come last, so that
 * another source changes nothing but its own pollen.
 *
 * @param mean mean share of hybrid seed, from 0 to 1
 * @param interval interval in which the given part of all runs lies
 * @param selfedOrSibbed mean share of seed from shedding females
 * @param outcrossed mean share of seed from foreign pollen
 * @param pollinatorSeed mean share of seed that grew on pollinator plants
 * @param runs number of runs
 * @param seed seed of the simulation
 */
public record ExpectedHybridity(
    double mean,
    Interval interval,
    double selfedOrSibbed,
    double outcrossed,
    double pollinatorSeed,
    int runs,
    long seed) {

  /**
   * A source of foreign pollen.
   *
   * @param extent where its plants stand
   * @param relativeDensity pollen-shedding plants for each square metre, as a part of all plants in
   *     the crop for each square metre
   * @param overlap part of the female's receptive flowering in which the source sheds
   */
  public record ForeignSource(
      SourceExtent extent, double relativeDensity, TriangularRange overlap) {}

  /**
   * A crop of F1 seed.
   *
   * @param shedders shedding females counted
   * @param femalesExamined females examined in receptive flower
   * @param pollinatorPlantShare share of pollinator among the plants
   * @param pollinatorOverlap part of the female's receptive flowering in which the pollinator sheds
   * @param pollinatorHarvested whether pollinator plants are harvested with the female
   * @param sources foreign pollen
   */
  public record Crop(
      int shedders,
      int femalesExamined,
      TriangularRange pollinatorPlantShare,
      TriangularRange pollinatorOverlap,
      boolean pollinatorHarvested,
      List<ForeignSource> sources) {

    /**
     * @throws IllegalArgumentException where the counts do not fit or a share is outside 0 to 1
     */
    public Crop {
      Preconditions.count(shedders, femalesExamined);
      Preconditions.share("least pollinator share", pollinatorPlantShare.least());
      Preconditions.share("greatest pollinator share", pollinatorPlantShare.greatest());
      Preconditions.share("least overlap of the pollinator", pollinatorOverlap.least());
      Preconditions.share("greatest overlap of the pollinator", pollinatorOverlap.greatest());
      sources = List.copyOf(sources);
    }
  }

  /**
   * Simulates.
   *
   * @param runs number of runs, at least 100
   * @param seed seed of the simulation
   * @param confidence part of the runs that the interval holds, as in 0.95
   */
  public static ExpectedHybridity forecast(
      Crop crop, HybridityParameters parameters, int runs, long seed, double confidence) {
    Preconditions.probability("confidence", confidence);
    if (runs < 100) {
      throw new IllegalArgumentException(
          "An interval needs at least 100 runs; the number given is " + runs);
    }
    SplittableRandom random = new SplittableRandom(seed);
    ContinuousDistribution.Sampler shedders =
        BetaDistribution.of(crop.shedders + 0.5, crop.femalesExamined - crop.shedders + 0.5)
            .createSampler(random.split()::nextLong);
    double[] hybrid = new double[runs];
    double selfed = 0;
    double outcrossed = 0;
    double pollinatorSeed = 0;
    for (int run = 0; run < runs; run++) {
      Fates fates = fates(crop, parameters, shedders.sample(), random.split());
      hybrid[run] = fates.hybrid;
      selfed += fates.selfed;
      outcrossed += fates.outcrossed;
      pollinatorSeed += fates.pollinator;
    }
    double mean = Arrays.stream(hybrid).average().orElseThrow();
    Arrays.sort(hybrid);
    int tail = (int) Math.floor((1 - confidence) / 2 * runs);
    Interval interval = new Interval(hybrid[tail], hybrid[runs - 1 - tail], confidence);
    return new ExpectedHybridity(
        mean, interval, selfed / runs, outcrossed / runs, pollinatorSeed / runs, runs, seed);
  }

  /** Shares of all seed in one run; they sum to 1. */
  private record Fates(double hybrid, double selfed, double outcrossed, double pollinator) {}

  private static Fates fates(
      Crop crop, HybridityParameters parameters, double shedderShare, SplittableRandom random) {
    double pollinatorShare = drawn(crop.pollinatorPlantShare, random);
    double wanted = pollinatorShare * drawn(crop.pollinatorOverlap, random);
    double shed =
        (1 - pollinatorShare) * shedderShare * drawn(parameters.shedderPollen().spread(), random);
    PollenKernel kernel =
        PollenKernel.calibrated(
            drawn(parameters.kernelDistanceM().spread(), random),
            drawn(parameters.kernelShareWithin().spread(), random),
            drawn(parameters.kernelTailExponent().spread(), random));
    double yieldPart = drawn(parameters.pollinatorYield().spread(), random);
    double foreign = 0;
    for (ForeignSource source : crop.sources) {
      foreign +=
          source.extent.received(kernel) * source.relativeDensity * drawn(source.overlap, random);
    }
    double cloud = wanted + shed + foreign;
    if (cloud == 0) {
      throw new IllegalArgumentException(
          "No pollen reaches the female: neither pollinator, shedders nor foreign sources");
    }
    double pollinatorSeed = 0;
    if (crop.pollinatorHarvested) {
      double borne = pollinatorShare * yieldPart;
      pollinatorSeed = borne / (borne + 1 - pollinatorShare);
    }
    double femaleSeed = 1 - pollinatorSeed;
    return new Fates(
        femaleSeed * wanted / cloud,
        femaleSeed * shed / cloud,
        femaleSeed * foreign / cloud,
        pollinatorSeed);
  }

  private static double drawn(TriangularRange spread, SplittableRandom random) {
    return spread.quantile(random.nextDouble());
  }
}
