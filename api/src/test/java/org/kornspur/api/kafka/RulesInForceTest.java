package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import io.smallrye.config.PropertiesConfigSource;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;

/** The administrator's rulebooks: read at the start, and taken while the site runs. */
class RulesInForceTest {
  private static final Duration LIMIT = Duration.ofSeconds(30);

  @TempDir Path data;
  private Path folder;
  private RulesInForce rules;

  @BeforeEach
  void prepare() throws IOException {
    folder = Files.createDirectories(data.resolve("rulebooks"));
    rules = rulesOf(data);
  }

  @AfterEach
  void stop() {
    rules.stop();
  }

  @Test
  void withoutAFolderTheRulesAreThoseOfTheProgram(@TempDir Path empty) {
    RulesInForce bundled = rulesOf(empty);

    assertThat(bundled.judge().rules()).isEqualTo(Judge.by(Rulebooks.bundled()).rules());
  }

  @Test
  void aHouseRulebookIsInForceFromTheStart() throws IOException {
    write("mill.yaml", book(12));

    rules.start();

    assertThat(rules.rulebooks().find("MILL")).isPresent();
    assertThat(rules.judge().rules()).isNotEqualTo(Judge.by(Rulebooks.bundled()).rules());
  }

  @Test
  void aChangeIsTakenWhileTheSiteRuns() throws IOException {
    write("mill.yaml", book(12));
    rules.start();
    var before = rules.judge().rules();

    write("mill.yaml", book(11));

    await()
        .atMost(LIMIT)
        .untilAsserted(() -> assertThat(rules.judge().rules()).isNotEqualTo(before));
    assertThat(rules.rulebooks().find("MILL").orElseThrow().lines().get(0).limit().value())
        .isEqualTo(11);
    assertThat(rules.areRefused()).isFalse();
  }

  @Test
  void aChangeThatIsRefusedLeavesTheRulesInForceAndIsTold() throws IOException {
    write("mill.yaml", book(12));
    rules.start();
    var before = rules.judge().rules();

    write("mill.yaml", book(15));

    await().atMost(LIMIT).until(rules::areRefused);
    assertThat(rules.judge().rules()).isEqualTo(before);
  }

  @Test
  void aRulebookThatIsRefusedEndsTheStartWithItsName() throws IOException {
    write("mill.yaml", book(15));

    assertThatThrownBy(rules::start)
        .isInstanceOf(CannotStart.class)
        .hasMessageContaining("mill.yaml")
        .hasMessageContaining("MOISTURE");
  }

  private void write(String name, String yaml) throws IOException {
    Files.writeString(folder.resolve(name), yaml);
  }

  /** A book of an invented mill; it tightens one that allows 14.5 %. */
  private static String book(int moisturePercent) {
    return """
    id: MILL
    title: "House rulebook of an invented mill"
    edition: "1"
    tightens: HOUSE
    limits:
      - quantity: MOISTURE
        sense: AT_MOST
        value: %d
        unit: "%%"
        categories: [BASIC, CERTIFIED]
        source: {text: "House rulebook of an invented mill", section: "1"}
        inForceFrom: "2020-01-01"
        verified: true
    """
        .formatted(moisturePercent);
  }

  private static RulesInForce rulesOf(Path data) {
    EngineSettings settings =
        new SmallRyeConfigBuilder()
            .addDiscoveredConverters()
            .withMapping(EngineSettings.class)
            .withSources(
                new PropertiesConfigSource(
                    Map.of("kornspur.data-folder", data.toString()), "test", 100))
            .withValidateUnknown(false)
            .build()
            .getConfigMapping(EngineSettings.class);
    return new RulesInForce(settings, Duration.ofMillis(100));
  }
}
