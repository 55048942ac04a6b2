package org.kornspur.api.query.advice;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.processors.advice.ComparisonStatement;
import org.kornspur.processors.advice.StatedValueAdvice;
import org.kornspur.processors.statistics.Agreement;

@Schema(description = "Whether two values agree by one published rule. Advice, not a gate")
public record ComparisonView(
    @Schema(description = "What is compared, by which rule") String rule,
    @Schema(nullable = true, description = "Null where no published tolerance holds")
        Boolean agrees,
    @Schema(nullable = true, description = "How far they lie apart, in unit") Double difference,
    @Schema(nullable = true, description = "The most that is tolerated, in unit") Double tolerated,
    @Schema(nullable = true) String unit,
    @Schema(nullable = true) String source,
    @Schema(nullable = true, description = "False where the number is from memory")
        Boolean verified,
    String sentence) {

  public static ComparisonView of(StatedValueAdvice advice, ReaderWords words) {
    return of(advice.rule(), advice.agreement(), words.plain(advice.sentence()), words);
  }

  public static ComparisonView of(
      ComparisonStatement rule, Agreement agreement, String sentence, ReaderWords words) {
    String named = words.plain(rule);
    if (agreement instanceof Agreement.Tabulated row) {
      return new ComparisonView(
          named,
          row instanceof Agreement.Agrees,
          row.difference(),
          row.tolerated(),
          row.unit(),
          words.bundled(row.source().text()),
          row.source().verified(),
          sentence);
    }
    return new ComparisonView(named, null, null, null, null, null, null, sentence);
  }
}
