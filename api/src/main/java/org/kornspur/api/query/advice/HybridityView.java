package org.kornspur.api.query.advice;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.processors.advice.ForecastStatement;
import org.kornspur.processors.advice.ForeignPollen;
import org.kornspur.processors.advice.HybridityForecast;
import org.kornspur.processors.statistics.ExpectedHybridity;

/** Expected hybridity of a harvest. */
@Schema(description = "Expected hybridity of the harvest of an F1 crop. Advice, not a gate")
public record HybridityView(
    SubjectLink crop,
    @Schema(examples = "HYB-AURUM") String hybridId,
    @Schema(description = "The forecast in a sentence") String sentence,
    @Schema(description = "What it is and is not") String advice,
    @Schema(description = "Expected share of hybrid seed; the interval holds that part of the runs")
        ShareView expected,
    @Schema(description = "Seed from shedding females, percent of all") double fromSheddersPercent,
    @Schema(description = "Seed from foreign pollen, percent of all") double outcrossedPercent,
    @Schema(description = "Seed that grew on pollinator plants, percent of all")
        double onPollinatorPercent,
    Simulation simulation,
    @Schema(description = "Every number that it rests on") List<InputView> inputs,
    @Schema(description = "Foreign pollen near the crop, nearest first") List<Source> foreignPollen,
    @Schema(description = "What would have to be brought for a better forecast")
        List<String> missing,
    @Schema(description = "What the forecast leaves out") List<String> simplifications,
    AsOf asOf) {

  /** How it was simulated. */
  @Schema(description = "The same facts and seed give the same forecast")
  public record Simulation(
      @Schema(description = "Number of runs", examples = "10000") int runs,
      @Schema(description = "Made from the id of the crop; text, since it is a 64-bit number")
          String seed) {}

  @Schema(description = "A source of foreign pollen")
  public record Source(
      SubjectLink source,
      @Schema(description = "Metres between the outlines") double distanceM,
      @Schema(description = "Hectares") double areaHa,
      @Schema(description = "False where the outline is not known and 1 ha was taken")
          boolean areaKnown,
      @Schema(
              description =
                  "Whether the pollen was summed over its outline and the crop's; else it is taken"
                      + " as a square at the crop's nearest edge")
          boolean byOutline,
      @Schema(
              description =
                  "Shedding plants for each square metre, as a part of the crop's plants for each"
                      + " square metre; assumed by the kind of source")
          double relativeDensity,
      @Schema(description = "Part of the crop's flowering in which it sheds, percent")
          double overlapPercent,
      @Schema(description = "Whether the forecast counts it") boolean counts,
      String note,
      String factId) {

    public static Source of(ForeignPollen pollen, ReaderWords words) {
      return new Source(
          SubjectLink.of(pollen.source()),
          pollen.distanceM(),
          pollen.areaHa(),
          pollen.areaKnown(),
          pollen.byOutline(),
          pollen.relativeDensity(),
          ShareView.percent(pollen.overlap()),
          pollen.counts(),
          words.plain(pollen.note()),
          pollen.factId());
    }
  }

  public static HybridityView of(HybridityForecast advice, ReaderWords words, AsOf asOf) {
    ExpectedHybridity forecast = advice.forecast();
    String adviceOnly = words.plain(new ForecastStatement.AdviceOnly());
    return new HybridityView(
        SubjectLink.of(advice.crop()),
        advice.hybridId(),
        words.plain(advice.sentence()) + " " + adviceOnly,
        adviceOnly,
        ShareView.of(forecast.mean(), forecast.interval()),
        ShareView.percent(forecast.selfedOrSibbed()),
        ShareView.percent(forecast.outcrossed()),
        ShareView.percent(forecast.pollinatorSeed()),
        new Simulation(forecast.runs(), Long.toString(forecast.seed())),
        advice.inputs().stream().map(input -> InputView.of(input, words)).toList(),
        advice.foreignPollen().stream().map(source -> Source.of(source, words)).toList(),
        advice.missing().stream().map(words::plain).toList(),
        advice.simplifications().stream().map(words::plain).toList(),
        asOf);
  }
}
