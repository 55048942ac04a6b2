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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * Another program fills the disk of the data folder to the last byte while the packaged application
 * runs: it ends and says so, and once there is room goes on with all that it took.
 */
@NeedsProgram(Program.C_COMPILER)
class FullDiskIT {
  private static final Duration REST_LIMIT = Duration.ofMinutes(5);
  private static final int LOTS = 50;

  @Test
  @Timeout(900)
  void shouldLoseNothingOfWhatItTook(@TempDir Path folder) throws Exception {
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

        faults.setDiskFull(true);
        boolean isTaken = takes(site, lots("WITHOUT-ROOM"));
        assertThat(machine.exitCode()).isEqualTo(1);
        assertThat(machine.log()).contains("No space left on device");

        faults.setDiskFull(false);
        machine.start();
        machine.awaitReady();
        site.awaitRest(backlog, REST_LIMIT);
        assertThat(site.everything()).containsAllEntriesOf(before);
        assertThat(isTaken).as("said to be taken where nothing can be kept").isFalse();

        assertThat(site.postLines("/api/v1/facts", lots("WITHOUT-ROOM")).status()).isEqualTo(200);
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
      Report.line("Without room on the disk: %s", answer);
      return answer.status() == 200 && answer.body().path("unsent").asInt(-1) == 0;
    } catch (IOException noAnswer) {
      Report.line("Without room on the disk: %s", noAnswer);
      return false;
    }
  }

  private static String lots(String name) {
    return IntStream.range(0, LOTS)
        .mapToObj(at -> InventedFacts.lot(name + "-fact-" + at, name + "-" + at, "SX", 500) + "\n")
        .collect(Collectors.joining());
  }
}
