package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.packaged.MachineFaults.DiskError;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * The disk of the data folder is full to the last byte, broken or read-only all at once while the
 * packaged application runs: it ends and says so, and once it can write again goes on with all that
 * it took.
 */
@NeedsProgram(Program.C_COMPILER)
class DiskErrorsIT {
  private static final Duration REST_LIMIT = Duration.ofMinutes(5);
  private static final int LOTS = 50;

  @ParameterizedTest
  @EnumSource
  @Timeout(900)
  void shouldLoseNothingOfWhatItTook(DiskError error, @TempDir Path folder) throws Exception {
    MachineFaults faults = MachineFaults.in(folder);
    try (OneMachine machine = new OneMachine(Files.createDirectory(folder.resolve("site")))) {
      faults.addTo(machine);
      machine.start();
      machine.awaitReady();
      Site site = machine.site();
      try (Backlog backlog = machine.backlog()) {
        assertThat(site.postLines("/api/v1/facts", lots("BEFORE")).status()).isEqualTo(200);
        site.awaitRest(backlog, REST_LIMIT);
        Map<String, JsonNode> before = site.everything();
        assertThat(site.standings()).isEqualTo(LOTS);

        faults.breakDisk(error);
        boolean isTaken = takes(site, lots("NOT-KEPT"));
        assertThat(machine.exitCode()).isEqualTo(1);
        assertThat(machine.log()).contains(error.text);

        faults.heal();
        machine.start();
        machine.awaitReady();
        site.awaitRest(backlog, REST_LIMIT);
        assertThat(site.everything()).containsAllEntriesOf(before);
        assertThat(isTaken).as("said to be taken where nothing can be kept").isFalse();

        assertThat(site.postLines("/api/v1/facts", lots("NOT-KEPT")).status()).isEqualTo(200);
        site.awaitRest(backlog, REST_LIMIT);
        assertThat(site.standings()).isEqualTo(2 * LOTS);
      }
      assertThat(machine.verifyRunning().exitCode()).isEqualTo(VerifyCommand.INTACT);
    }
  }

  /** Whether a site says that it took all of them. */
  private static boolean takes(Site site, String lots) throws InterruptedException {
    try {
      Site.Answer answer = site.postLines("/api/v1/facts", lots);
      Report.line("Where nothing can be written: %s", answer);
      return answer.status() == 200 && answer.body().path("unsent").asInt(-1) == 0;
    } catch (IOException noAnswer) {
      Report.line("Where nothing can be written: %s", noAnswer);
      return false;
    }
  }

  private static String lots(String name) {
    return IntStream.range(0, LOTS)
        .mapToObj(at -> InventedFacts.lot(name + "-fact-" + at, name + "-" + at, "SX", 500) + "\n")
        .collect(Collectors.joining());
  }
}
