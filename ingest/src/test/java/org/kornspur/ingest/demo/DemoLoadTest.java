package org.kornspur.ingest.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.LoadReport;
import org.kornspur.ingest.intake.FactSink;

/** The ordinary loader reads the committed folder, and refuses just the lines that are broken. */
class DemoLoadTest {
  private static final Path FOLDER =
      Path.of(System.getProperty("basedir", ".")).resolve("../demo-events").normalize();
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-01T00:00:00Z"), ZoneOffset.UTC);
  private static final String BROKEN = "stories/" + FileStories.BROKEN + "/";

  private final List<SpecificRecord> taken = new ArrayList<>();
  private final FactSink sink =
      new FactSink() {
        @Override
        public void accept(SpecificRecord fact) {
          taken.add(fact);
        }

        @Override
        public void refuse(QuarantineEntry entry) {
          // the report lists it too
        }
      };

  @Test
  void refusesEightLinesAndSaysWhichFieldIsWrong() throws IOException {
    LoadReport report = FolderLoader.load(FOLDER, CLOCK, sink, LoadProgress.SILENT);

    Map<String, String> refused = new LinkedHashMap<>();
    report
        .details()
        .forEach(
            input ->
                refused.put(
                    input.file().replace(BROKEN, "") + ":" + input.line(),
                    input.problems().get(0).field()));
    assertThat(refused)
        .containsOnly(
            Map.entry("FieldInspection-broken.csv:3", "part"),
            Map.entry("FieldInspection-broken.csv:4", "bbchStage"),
            Map.entry("GerminationTest-broken.csv:3", "replicates[1].normalSeedlings"),
            Map.entry("LotSplit-broken.csv:3", "parts[0].massKg"),
            Map.entry("MoistureTest-broken.csv:2", "lotId"),
            Map.entry("MoistureTest-broken.csv:3", "lotId"),
            Map.entry("phone-broken.ndjson:2", ""),
            Map.entry("phone-broken.ndjson:3", "type"));
    assertThat(report.passedOver()).containsExactly("ABOUT.md");
  }

  @Test
  void readsBackEveryFactAsItWasInvented() throws IOException {
    FolderLoader.load(FOLDER, CLOCK, sink, LoadProgress.SILENT);

    Map<String, SpecificRecord> byId = new LinkedHashMap<>();
    for (SpecificRecord fact : taken) {
      SpecificRecord earlier = byId.putIfAbsent(FactType.headerOf(fact).getFactId(), fact);
      if (earlier != null) {
        assertThat(fact).as("the duplicate says the same").isEqualTo(earlier);
      }
    }
    List<SpecificRecord> invented = DemoEvents.invented().facts();
    assertThat(byId.values()).containsAll(invented);
    // the good lines of the broken files: a germination test, a split, a visit, two sterility
    // checks
    assertThat(byId).hasSize(invented.size() + 5);
  }
}
