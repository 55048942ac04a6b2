package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.PublishedChecks;
import org.kornspur.processors.standards.Rulebooks;

class SamplingIntensityTest {

  private static final SamplingIntensity TABLE =
      Rulebooks.bundled().find("EU").orElseThrow().primarySamples().orElseThrow();

  private final PublishedChecks checks = PublishedChecks.of("statistics");

  /** Three from each of 1-4, two of 5-8, one of 9-15, then 15, 20 and 30 in all. */
  @ParameterizedTest
  @CsvSource({
    "1, 3", "4, 12", "5, 10", "8, 16", "9, 9", "15, 15", "16, 15", "30, 15", "31, 20", "59, 20",
    "60, 30", "600, 30"
  })
  void containersOfFifteenToAHundredKilograms(int containers, int samples) {
    checks.same(
        "primary samples of a lot in %d containers of 50 kg".formatted(containers),
        samples,
        TABLE.inContainers(containers, containers * 50.0).primarySamples(),
        "SSI 2005/328, schedule 5, paragraph 6");
  }

  /**
   * 5 up to 500 kg; one for each 300 kg and at least 5 up to 3,000; one for each 500 and at least
   * 10 up to 20,000; one for each 700 and at least 40 above.
   */
  @ParameterizedTest
  @CsvSource({
    "100, 5",
    "500, 5",
    "501, 5",
    "1500, 5",
    "1800, 6",
    "3000, 10",
    "3001, 10",
    "5000, 10",
    "6000, 12",
    "20000, 40",
    "20001, 40",
    "28000, 40",
    "30000, 43",
    "35000, 50"
  })
  void bulk(double lotMassKg, int samples) {
    checks.same(
        "primary samples of %.0f kg in bulk".formatted(lotMassKg),
        samples,
        TABLE.inBulk(lotMassKg).primarySamples(),
        "SSI 2005/329, schedule 5, paragraph 11");
  }

  @Test
  void largeContainersAreSampledAsBulkAndSmallOnesAsUnits() {
    assertThat(TABLE.inContainers(30, 30_000).primarySamples()).isEqualTo(43);
    SamplingIntensity.Required ofTenKilograms = TABLE.inContainers(100, 1000);
    assertThat(ofTenKilograms.primarySamples()).isEqualTo(10);
    assertThat(ofTenKilograms.source().verified()).isFalse();
  }

  @Property(tries = 200)
  void heavierBulkNeverNeedsFewerSamples(@ForAll @IntRange(min = 1, max = 34_999) int kilograms) {
    assertThat(TABLE.inBulk(kilograms + 1).primarySamples())
        .isGreaterThanOrEqualTo(TABLE.inBulk(kilograms).primarySamples());
  }
}
