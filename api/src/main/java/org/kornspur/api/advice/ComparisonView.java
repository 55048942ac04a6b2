package org.kornspur.api.advice;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.processors.advice.StatedValueAdvice;
import org.kornspur.processors.statistics.Agreement;

/** Whether two values agree by one published rule. */
@Schema(description = "Whether two values agree by one published rule. Advice, not a gate")
public record ComparisonView(
    @Schema(description = "What is compared, by which rule") String rule,
    @Schema(description = "Null where no published tolerance holds") Boolean agrees,
    @Schema(description = "How far they lie apart, in unit") Double difference,
    @Schema(description = "The most that is tolerated, in unit") Double tolerated,
    String unit,
    String source,
    @Schema(description = "False where the number is from memory") Boolean verified,
    String sentence) {

  static ComparisonView of(StatedValueAdvice advice) {
    return of(advice.rule(), advice.agreement(), advice.sentence());
  }

  static ComparisonView of(String rule, Agreement agreement, String sentence) {
    if (agreement instanceof Agreement.Agrees agrees) {
      return new ComparisonView(
          rule,
          true,
          agrees.difference(),
          agrees.tolerated(),
          agrees.unit(),
          agrees.source().text(),
          agrees.source().verified(),
          sentence);
    }
    if (agreement instanceof Agreement.Disagrees disagrees) {
      return new ComparisonView(
          rule,
          false,
          disagrees.difference(),
          disagrees.tolerated(),
          disagrees.unit(),
          disagrees.source().text(),
          disagrees.source().verified(),
          sentence);
    }
    return new ComparisonView(rule, null, null, null, null, null, null, sentence);
  }
}
