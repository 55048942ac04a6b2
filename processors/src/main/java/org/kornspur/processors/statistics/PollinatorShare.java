package org.kornspur.processors.statistics;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.kornspur.contract.ShareBasis;

/**
 * Share of pollinator in a technical mixture: from what was mixed, by mass, kernels or viable
 * kernels.
 *
 * <p>A kilogram holds 1,000,000 kernels divided by the thousand-kernel weight in grams; of these
 * the germination is viable. The standard error follows from the errors of mass, kernel weight and
 * germination by the delta method on the logarithms; parts that rest on one measurement err
 * together, so that a lot mixed in by portions is no surer than in one. The interval is taken on
 * the logit scale, so that it stays between 0 and 1.
 *
 * @param share pollinator share, from 0 to 1, on the basis
 * @param standardError its standard error
 * @param basis what it is a share of
 */
public record PollinatorShare(double share, double standardError, ShareBasis basis) {

  /**
   * One lot in the mixture.
   *
   * @param pollinator whether it is a lot of the pollinator
   * @param massKg mass mixed in, kilograms
   * @param thousandKernelWeightG thousand-kernel weight, grams
   * @param germination germination as a share, up to 1
   */
  public record Part(
      boolean pollinator, Estimate massKg, Estimate thousandKernelWeightG, Estimate germination) {

    /**
     * @throws IllegalArgumentException where the germination is above 1
     */
    public Part {
      Preconditions.share("germination", germination.value());
    }

    /** Amount on a basis: kilograms, kernels or viable kernels. */
    public double amount(ShareBasis basis) {
      double kernels = massKg.value() * 1_000_000 / thousandKernelWeightG.value();
      return switch (basis) {
        case MASS -> massKg.value();
        case KERNELS -> kernels;
        case VIABLE_KERNELS -> kernels * germination.value();
      };
    }

    private List<Estimate> measured(ShareBasis basis) {
      return switch (basis) {
        case MASS -> List.of(massKg);
        case KERNELS -> List.of(massKg, thousandKernelWeightG);
        case VIABLE_KERNELS -> List.of(massKg, thousandKernelWeightG, germination);
      };
    }
  }

  /**
   * Share of pollinator in a mixture of any number of lots.
   *
   * @throws IllegalArgumentException where there is no part
   */
  public static PollinatorShare of(List<Part> parts, ShareBasis basis) {
    if (parts.isEmpty()) {
      throw new IllegalArgumentException("A mixture has at least one part");
    }
    double all = parts.stream().mapToDouble(part -> part.amount(basis)).sum();
    double share =
        parts.stream().filter(Part::pollinator).mapToDouble(part -> part.amount(basis)).sum() / all;
    double variance = 0;
    Map<String, Double> ofMeasurement = new TreeMap<>();
    for (Part part : parts) {
      double weight = part.amount(basis) / all * ((part.pollinator ? 1 : 0) - share);
      for (Estimate estimate : part.measured(basis)) {
        double error = weight * Math.sqrt(estimate.relativeVariance());
        if (estimate.measurement().isEmpty()) {
          variance += error * error;
        } else {
          ofMeasurement.merge(estimate.measurement(), error, Double::sum);
        }
      }
    }
    for (double error : ofMeasurement.values()) {
      variance += error * error;
    }
    return new PollinatorShare(share, Math.sqrt(variance), basis);
  }

  /** Interval of the share on the logit scale; a share without error, or of 0 or 1, is exact. */
  public Interval interval(double confidence) {
    Preconditions.probability("confidence", confidence);
    if (standardError == 0 || share == 0 || share == 1) {
      return new Interval(share, share, confidence);
    }
    double quantile = NormalDistribution.of(0, 1).inverseSurvivalProbability((1 - confidence) / 2);
    double reach = quantile * standardError / (share * (1 - share));
    double logit = Math.log(share / (1 - share));
    return new Interval(fromLogit(logit - reach), fromLogit(logit + reach), confidence);
  }

  private static double fromLogit(double logit) {
    return 1 / (1 + Math.exp(-logit));
  }
}
