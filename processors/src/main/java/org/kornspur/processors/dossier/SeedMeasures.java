package org.kornspur.processors.dossier;

import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.statistics.Estimate;
import org.kornspur.processors.statistics.PollinatorShare;

/**
 * What tests measured of a lot and a blend of it needs to know.
 *
 * @param setAside which weighings do not count, and why the weight is not known; none in reports of
 *     earlier releases
 */
public record SeedMeasures(
    Optional<Mean> thousandKernelWeightG, Optional<Mean> germinationPercent, List<Coded> setAside) {

  public SeedMeasures {
    setAside = setAside == null ? List.of() : setAside; // as earlier versions kept it
  }

  /**
   * A mean with its standard error, in the unit that the name of the holder gives.
   *
   * @param factId the latest test that it rests on
   * @param each all of them where it rests on several; none in reports of earlier releases
   * @param inDoubt whether it speaks against a mixture only, because the tests contradict each
   *     other or are too few; false in reports of earlier releases
   */
  public record Mean(
      double mean, double standardError, String factId, List<OfTest> each, boolean inDoubt) {
    /** So that a test in which nothing grew can be reckoned with. */
    private static final double NEXT_TO_NOTHING = 1e-6;

    public Mean {
      each = each == null ? List.of() : each; // as earlier versions kept it
    }

    /**
     * @param each tests, the latest last
     * @throws IllegalArgumentException where it comes to no number
     */
    public static Mean of(
        String what, double mean, double standardError, List<OfTest> each, boolean inDoubt) {
      if (!Double.isFinite(mean) || !Double.isFinite(standardError)) {
        throw new IllegalArgumentException(
            "The %s of %s comes to %s with a standard error of %s"
                .formatted(what, each, mean, standardError));
      }
      String latest = each.get(each.size() - 1).factId();
      return new Mean(
          mean, standardError, latest, each.size() > 1 ? List.copyOf(each) : List.of(), inDoubt);
    }

    public Stream<String> factIds() {
      return Stream.concat(each.stream().map(OfTest::factId), Stream.of(factId)).distinct();
    }

    /** As the one test has it that gives the least, or the most. */
    private Mean ofOneTest(boolean most) {
      DoubleStream means = each.stream().mapToDouble(OfTest::mean);
      double one = Math.max(NEXT_TO_NOTHING, (most ? means.max() : means.min()).orElse(mean));
      return new Mean(one, standardError, factId, each, inDoubt);
    }
  }

  /** What one of several tests comes to by itself. */
  public record OfTest(String factId, double mean) {}

  /** As single tests have it that make the most, or the fewest, viable kernels of a mass. */
  public SeedMeasures ofOneTest(boolean mostKernels) {
    return new SeedMeasures(
        thousandKernelWeightG.map(weight -> weight.ofOneTest(!mostKernels)),
        germinationPercent.map(percent -> percent.ofOneTest(mostKernels)),
        setAside);
  }

  /** This with a germination that speaks against a mixture only. */
  public SeedMeasures germinationInDoubt() {
    return new SeedMeasures(
        thousandKernelWeightG,
        germinationPercent.map(
            of -> new Mean(of.mean(), of.standardError(), of.factId(), of.each(), true)),
        setAside);
  }

  /** This without what is in doubt, as advice takes it. */
  public SeedMeasures proven() {
    return new SeedMeasures(
        thousandKernelWeightG.filter(weight -> !weight.inDoubt()),
        germinationPercent.filter(percent -> !percent.inDoubt()),
        setAside);
  }

  /** Facts that a share on a basis rests on. */
  public Stream<String> factIds(ShareBasis basis) {
    return Stream.concat(
            thousandKernelWeightG.filter(weight -> basis != ShareBasis.MASS).stream(),
            germinationPercent.filter(percent -> basis == ShareBasis.VIABLE_KERNELS).stream())
        .flatMap(Mean::factIds);
  }

  /**
   * A lot as part of a mixture. What the basis does not ask for is left at 1 and does not count;
   * the mass is taken as exact.
   *
   * @throws java.util.NoSuchElementException where a test is missing that the basis asks for
   */
  public PollinatorShare.Part part(boolean pollinator, double massKg, ShareBasis basis) {
    return new PollinatorShare.Part(
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
    return new SeedMeasures(Optional.empty(), Optional.empty(), List.of());
  }
}
