package org.kornspur.api.query.season;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.readmodel.SeasonTotal;
import org.kornspur.processors.statistics.ExactBinomial;

@Schema(description = "The crops or the lots of one season")
public record SeasonView(
    @Schema(description = "Year of harvest", examples = "2025") int cropYear,
    int fit,
    @Schema(description = "Those that evidence is owed for") int owed,
    int notFit,
    int all,
    @Schema(
            description =
                "Part of all that is fit, with its exact interval; those that evidence is owed for"
                    + " are not fit. Of few the interval is wide. Lots of one crop are not"
                    + " independent")
        ShareView fitShare,
    @Schema(description = "Seed in store, kilograms; 0 for crops") double leftKg,
    @Schema(description = "Seed that left its lots, kilograms; 0 for crops") double givenOutKg,
    @Schema(
            description =
                "Gates that are not met, own and inherited, most first; what is not fit for several"
                    + " counts for each")
        List<Cause> causes) {
  static final double CONFIDENCE = 0.95;

  @Schema(name = "SeasonCause", description = "A gate that crops or lots are not fit for")
  public record Cause(
      @Schema(examples = "ISOLATION") String gate,
      @Schema(description = "Crops or lots that are not fit for it") int count) {}

  static SeasonView of(SeasonTotal total) {
    return new SeasonView(
        total.year(),
        total.fit(),
        total.owed(),
        total.notFit(),
        total.all(),
        share(total.fit(), total.all()),
        total.leftKg(),
        total.givenOutKg(),
        total.causes().entrySet().stream()
            .map(cause -> new Cause(cause.getKey(), cause.getValue()))
            .sorted((one, other) -> Integer.compare(other.count(), one.count()))
            .toList());
  }

  static ShareView share(int some, int all) {
    return ShareView.of((double) some / all, ExactBinomial.interval(some, all, CONFIDENCE));
  }
}
