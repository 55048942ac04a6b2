package org.kornspur.api.query.season;

import java.time.Instant;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.processors.statistics.RangeChart;

@Schema(
    description =
        "How far the replicates of a laboratory's germination tests lie apart, year by year, and a"
            + " control chart of one year. It tells whether the work is steady and judges no lot")
public record ControlChartView(
    @Schema(examples = "ENT-LAB-ONE") String laboratoryId,
    @Schema(nullable = true, description = "Its name; null where none is declared") String name,
    @Schema(description = "Each year with tests, the latest first; by UTC") List<Year> years,
    @Schema(nullable = true, description = "The chart; null where there is no test") Chart chart,
    AsOf asOf) {

  @Schema(name = "ControlChartYear", description = "The germination tests of one year")
  public record Year(
      @Schema(examples = "2025") int year,
      int tests,
      @Schema(
              description =
                  "Tests that the chart compares: two replicates of 100 seeds or more, and neither"
                      + " none nor all germinated")
          int compared,
      @Schema(description = "Tests whose range is more than the published tolerance")
          int beyondTolerance,
      @Schema(description = "Part of the tests beyond tolerance, with its exact interval")
          ShareView beyondToleranceShare,
      @Schema(description = "Tests whose range is more than the control limit") int beyondLimit,
      @Schema(
              nullable = true,
              description =
                  "Variance between replicates as a multiple of what chance alone makes (Pearson's"
                      + " chi-squared over its degrees of freedom); null where no test is compared")
          Spread spread,
      RangeChart.Steadiness steadiness) {}

  @Schema(name = "ReplicateSpread", description = "A multiple of what chance alone makes")
  public record Spread(
      @Schema(examples = "1.1") double times,
      double lower,
      double upper,
      @Schema(description = "Confidence of the interval, percent", examples = "95")
          double confidencePercent) {}

  @Schema(name = "ControlChart", description = "Shewhart chart of ranges of one year")
  public record Chart(
      @Schema(examples = "2025") int year,
      @Schema(
              description =
                  "Mean of range ÷ (d2 σ), with σ by chance at the germination of each test; 1,"
                      + " chance alone, while fewer than 20 tests are compared")
          double centre,
      boolean ownCentre,
      @Schema(description = "The last 1,000 tests of the year, the first first")
          List<Test> tests) {}

  @Schema(name = "ControlChartTest", description = "A germination test on the chart")
  public record Test(
      String lotId,
      String sampleId,
      String factId,
      Instant testedAt,
      @Schema(description = "Normal seedlings, percent", examples = "92.5") double meanPercent,
      @Schema(
              nullable = true,
              description =
                  "Largest less smallest replicate of 100 seeds, percentage points; null where the"
                      + " replicates do not make two of these")
          Double rangePercent,
      @Schema(nullable = true, description = "Upper control limit, percentage points")
          Double limitPercent,
      @Schema(
              nullable = true,
              description = "Published tolerance, percentage points; null where none holds")
          Double tolerancePercent,
      boolean beyondLimit,
      boolean beyondTolerance) {}
}
