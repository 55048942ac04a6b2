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

  @Test
  @Timeout(900)
  void shouldLoseNothingOfWhatItTook(@TempDir Path folder) throws Exception {
    MachineFaults faults = MachineFaults.in(folder);
    try (OneMachine machine = new OneMachine(Files.createDirectory(folder.resolve("site")))) {
      faults.addTo(machine);
      machine.start();
      machine.awaitReady();
      assertThat(takes(machine.site(), lots("BEFORE"))).isTrue();
      for (DiskError error : DiskError.values()) {
        Map<String, JsonNode> before = atRest(machine);
        faults.breakDisk(error);
        boolean isTaken = takes(machine.site(), lots(error.name()));
        assertThat(machine.exitCode()).isEqualTo(1);
        assertThat(machine.log()).contains(error.text);

        faults.heal();
        machine.start();
        machine.awaitReady();
        assertThat(atRest(machine)).containsAllEntriesOf(before);
        assertThat(isTaken).as("said to be taken where nothing can be kept").isFalse();
        assertThat(takes(machine.site(), lots(error.name()))).isTrue();
      }
      atRest(machine);
      assertThat(machine.site().standings()).isEqualTo((1 + DiskError.values().length) * LOTS);
      assertThat(machine.verifyRunning().exitCode()).isEqualTo(VerifyCommand.INTACT);
    }
  }

  private static Map<String, JsonNode> atRest(OneMachine machine) throws Exception {
    try (Backlog backlog = machine.backlog()) {
      machine.site().awaitRest(backlog, REST_LIMIT);
      return machine.site().everything();
    }
  }

  /** Whether a site says that it took all of them. */
  private static boolean takes(Site site, String lots) throws InterruptedException {
    try {
      Site.Answer answer = site.postLines("/api/v1/facts", lots);
      Report.line("Disk of the site: %s", answer);
      return answer.status() == 200 && answer.body().path("unsent").asInt(-1) == 0;
    } catch (IOException noAnswer) {
      Report.line("Disk of the site: %s", noAnswer);
      return false;
    }
  }

  private static String lots(String name) {
    return IntStream.range(0, LOTS)
        .mapToObj(at -> InventedFacts.lot(name + "-fact-" + at, name + "-" + at, "SX", 500) + "\n")
        .collect(Collectors.joining());
  }
}
