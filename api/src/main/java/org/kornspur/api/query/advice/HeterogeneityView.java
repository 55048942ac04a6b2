package org.kornspur.api.query.advice;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.processors.advice.BlendUniformity;
import org.kornspur.processors.advice.ComparisonStatement;
import org.kornspur.processors.advice.ContainerAttribute;
import org.kornspur.processors.advice.HeterogeneityAdvice;
import org.kornspur.processors.statistics.Heterogeneity;

/** Whether the containers of a lot differ more than those of a mixed lot may. */
@Schema(description = "Whether the containers of a lot differ too much. Advice, not a gate")
public record HeterogeneityView(
    ContainerAttribute attribute,
    @Schema(description = "Containers sampled") int containers,
    @Schema(description = "Whether a test finds the lot heterogeneous") boolean heterogeneous,
    String sentence,
    @Schema(nullable = true, description = "Null where the rules report none") HValue hValue,
    @Schema(nullable = true, description = "Range test; null for the share of a blend")
        ComparisonView range,
    @Schema(nullable = true, description = "Share of pollinator; null for all else")
        BlendShareValue blend,
    String source) {

  @Schema(description = "The H value; it has no unit")
  public record HValue(
      @Schema(description = "Mean, percent or number of seeds") double mean,
      @Schema(description = "W: variance that a mixed lot may have") double acceptableVariance,
      @Schema(description = "V: variance that was found") double observedVariance,
      double h,
      @Schema(description = "Greatest H of a lot that counts as homogeneous") double critical) {

    public static HValue of(Heterogeneity found) {
      return new HValue(
          found.mean(),
          found.acceptableVariance(),
          found.observedVariance(),
          found.h(),
          found.critical());
    }
  }

  @Schema(description = "Share of pollinator by kernels, and whether the containers differ in it")
  public record BlendShareValue(
      @Schema(description = "Over all containers; the interval is wider where they differ")
          ShareView share,
      @Schema(description = "Pearson's chi-squared of homogeneity") double chiSquared,
      int degreesOfFreedom,
      @Schema(description = "Of containers that differ as much in a well-mixed lot, from 0 to 1")
          double probability,
      @Schema(description = "Whether it was simulated, because few kernels are expected")
          boolean simulated,
      @Schema(description = "How many times as far apart as chance makes them, 1 or more")
          double factor) {}

  public static HeterogeneityView of(BlendUniformity advice, ReaderWords words) {
    return new HeterogeneityView(
        ContainerAttribute.BLEND_SHARE,
        advice.containers(),
        advice.uneven(),
        words.plain(advice.sentence()),
        null,
        null,
        new BlendShareValue(
            ShareView.of(advice.share(), advice.interval()),
            advice.chiSquared(),
            advice.freedom(),
            advice.probability(),
            advice.simulated(),
            advice.factor()),
        words.plain(advice.source()));
  }

  public static HeterogeneityView of(
      ContainerAttribute attribute, HeterogeneityAdvice advice, ReaderWords words) {
    String sentence = words.plain(advice.sentence());
    return new HeterogeneityView(
        attribute,
        advice.results().size(),
        advice.heterogeneous(),
        sentence,
        advice.h().map(HValue::of).orElse(null),
        ComparisonView.of(
            new ComparisonStatement.ContainerRange(), advice.range(), sentence, words),
        null,
        words.plain(advice.source()));
  }
}
