package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.statistics.PlotRejectNumbers.Run;

class PlotRejectNumbersTest {

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  @ParameterizedTest
  @CsvSource({
    "2000, 99.9, 6", "2000, 99.7, 11", "2000, 99.0, 29",
    "1000, 99.9, 4", "1000, 99.7, 7", "1000, 99.0, 16"
  })
  void controlPlots(int plants, double purityPercent, int rejectNumber) {
    checks.same(
        "reject number, %d plants, standard %s %%".formatted(plants, purityPercent),
        rejectNumber,
        PlotRejectNumbers.rejectNumber(plants, purityPercent),
        "OECD guidelines for control plot tests (from memory, not verified)");
    checks.shown(
        "the same by the exact binomial: the guidelines govern",
        rejectNumber,
        PlotRejectNumbers.exactRejectNumber(plants, purityPercent),
        "computed");
  }

  @Test
  void populationStandardOfOnePercent() {
    List<Run> runs = PlotRejectNumbers.runs(0.01, 0.95, 138);
    List<Run> published =
        List.of(new Run(1, 5, 0), new Run(6, 35, 1), new Run(36, 82, 2), new Run(83, 137, 3));
    for (int i = 0; i < published.size(); i++) {
      checks.same(
          "off-types, population standard 1 %, run " + (i + 1),
          published.get(i),
          runs.get(i),
          "UPOV table as a national office's guide prints it (5; 6-35; 36-82; 83-137)");
    }
  }

  @Test
  void populationStandardOfOneInAThousand() {
    List<Run> runs = PlotRejectNumbers.runs(0.001, 0.95, 818);
    List<Run> published = List.of(new Run(1, 51, 0), new Run(52, 355, 1), new Run(356, 818, 2));
    checks.same(
        "off-types, population standard 0.1 %",
        published, runs, "UPOV document TGP/8 (from memory, not verified)");
  }

  @Test
  void twentyPlantsMayHaveOneOffType() {
    checks.same(
        "off-types, population standard 1 %, 20 plants",
        1,
        ExactBinomial.acceptanceNumber(20, 0.01, 0.95),
        "UPOV test guidelines, section 4.2: 20 plants, 1 off-type is allowed");
  }

  @Test
  void aStandardOfAHundredPercentIsRefused() {
    assertThatThrownBy(() -> PlotRejectNumbers.rejectNumber(1000, 100))
        .isInstanceOf(IllegalArgumentException.class);
    assertThat(PlotRejectNumbers.rejectNumber(1, 99.9)).isEqualTo(1);
  }
}
