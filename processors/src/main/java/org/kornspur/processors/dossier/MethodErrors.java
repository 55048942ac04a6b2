package org.kornspur.processors.dossier;

import java.util.Optional;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.processors.statistics.MarkerCorrection;

/**
 * How often the method of a result errs, as its laboratory validated it. Empty for a marker test
 * that does not state both rates; other methods are taken as they counted.
 */
public final class MethodErrors {
  private MethodErrors() {}

  public static Optional<MarkerCorrection> of(PostControlResult result) {
    return result.getMethod() == PostControlMethod.MARKER
        ? stated(result.getFalsePositivePercent(), result.getFalseNegativePercent())
        : Optional.of(MarkerCorrection.NONE);
  }

  public static Optional<MarkerCorrection> of(BlendComposition sample) {
    return sample.getMethod() == CompositionMethod.MARKER
        ? stated(sample.getFalsePositivePercent(), sample.getFalseNegativePercent())
        : Optional.of(MarkerCorrection.NONE);
  }

  private static Optional<MarkerCorrection> stated(Double falsePositive, Double falseNegative) {
    return isPercent(falsePositive) && isPercent(falseNegative)
        ? Optional.of(new MarkerCorrection(falsePositive / 100, falseNegative / 100))
        : Optional.empty();
  }

  /** The log may hold facts that no intake checked. */
  private static boolean isPercent(Double rate) {
    return rate != null && rate >= 0 && rate <= 100;
  }
}
