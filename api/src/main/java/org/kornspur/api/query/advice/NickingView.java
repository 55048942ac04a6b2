package org.kornspur.api.query.advice;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.processors.advice.NickingAdvice;
import org.kornspur.processors.advice.NickingStatement;
import org.kornspur.processors.advice.PartFlowering;

/** Whether female and pollen parent flower together. */
@Schema(description = "Flowering of female and pollen parent, and what they share. Advice, no gate")
public record NickingView(
    SubjectLink crop,
    @Schema(description = "What it is and is not") String advice,
    Part female,
    Part pollenParent,
    @Schema(
            nullable = true,
            description = "Days on which both flower; left out until both are known")
        Integer daysTogether,
    @Schema(nullable = true, description = "The same as a part of the female's flowering, percent")
        Double sharePercent,
    @Schema(description = "What was found and what follows from it") List<String> said,
    @Schema(description = "What would have to be brought") List<String> missing,
    AsOf asOf) {

  /** The flowering of one component. */
  @Schema(description = "As it was seen; a day that nobody saw is left out")
  public record Part(
      @Schema(nullable = true, description = "First day, BBCH 61 to 63") LocalDate from,
      @Schema(nullable = true, description = "First day of full flower, BBCH 64 to 66")
          LocalDate full,
      @Schema(nullable = true, description = "Last day, BBCH 67 to 69") LocalDate to,
      @Schema(description = "Facts that tell of it") List<String> factIds) {

    static Part of(PartFlowering part) {
      return new Part(
          part.window().from().orElse(null),
          part.full().orElse(null),
          part.window().to().orElse(null),
          part.factIds());
    }
  }

  public static NickingView of(NickingAdvice advice, ReaderWords words, AsOf asOf) {
    Optional<NickingAdvice.Overlap> overlap = advice.overlap();
    return new NickingView(
        SubjectLink.of(advice.crop()),
        words.plain(new NickingStatement.AdviceOnly()),
        Part.of(advice.female()),
        Part.of(advice.pollenParent()),
        overlap.map(NickingAdvice.Overlap::days).orElse(null),
        overlap.map(met -> ShareView.percent((double) met.days() / met.femaleDays())).orElse(null),
        advice.said().stream().map(words::plain).toList(),
        advice.missing().stream().map(words::plain).toList(),
        asOf);
  }
}
