package org.kornspur.api.query.advice;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.Words;
import org.kornspur.processors.advice.ComparisonStatement;
import org.kornspur.processors.advice.HeterogeneityAdvice;
import org.kornspur.processors.statistics.Heterogeneity;

/** Whether the containers of a lot differ more than those of a mixed lot may. */
@Schema(description = "Whether the containers of a lot differ too much. Advice, not a gate")
public record HeterogeneityView(
    Heterogeneity.Attribute attribute,
    @Schema(description = "Containers sampled") int containers,
    @Schema(description = "Whether either test finds the lot heterogeneous") boolean heterogeneous,
    String sentence,
    @Schema(description = "Null where the rules report none") HValue hValue,
    @Schema(description = "Range test; only for analytical purity") ComparisonView range,
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

  public static HeterogeneityView of(HeterogeneityAdvice advice, Words words) {
    String sentence = words.plain(advice.sentence());
    return new HeterogeneityView(
        advice.attribute(),
        advice.results().size(),
        advice.heterogeneous(),
        sentence,
        advice.h().map(HValue::of).orElse(null),
        advice
            .range()
            .map(
                range ->
                    ComparisonView.of(
                        new ComparisonStatement.ContainerRange(), range, sentence, words))
            .orElse(null),
        words.plain(advice.source()));
  }
}
