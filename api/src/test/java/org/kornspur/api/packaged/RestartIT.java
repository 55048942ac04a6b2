package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.ConsumerGroupDescription;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.rest.InventedFacts;

/** The packaged application goes on with its lists where it stopped, or was killed. */
class RestartIT {
  private static final Duration REST_LIMIT = Duration.ofMinutes(10);
  private static final String READ = " standings were read from ";
  private static final String NOT_USED = " is not used, standings are read from the beginning";

  @Test
  @Timeout(1800)
  void shouldHoldTheSameStandingsAfterEachStart(@TempDir Path folder) throws Exception {
    UndisturbedRun.copyOfWholeDemoInto(folder);
    Path file = folder.resolve("data").resolve("read-model").resolve("standings");
    assertThat(file).as("left when the run before was asked to end").exists();
    try (OneMachine machine = new OneMachine(folder)) {
      Map<String, JsonNode> standings = start(machine, "after a stop");
      assertThat(machine.logged(standings.size() + READ)).isEqualTo(1);

      String lot = InventedFacts.lot("after-restart", "AFTER-RESTART", "SX", 500);
      assertThat(machine.site().postLines("/api/v1/facts", lot).status()).isEqualTo(200);
      Map<String, JsonNode> more = atRest(machine);
      assertThat(more).hasSize(standings.size() + 1).containsAllEntriesOf(standings);
      machine.kill();

      assertThat(start(machine, "after a kill")).isEqualTo(more);
      assertTheProcessBeforeIsForgotten(machine);
      assertThat(machine.logged(standings.size() + READ)).isEqualTo(2);
      machine.stop();

      Files.write(file, new byte[] {0}, StandardOpenOption.APPEND);
      assertThat(start(machine, "from the beginning, with a damaged file")).isEqualTo(more);
      assertThat(machine.logged(NOT_USED)).isEqualTo(1);
    }
  }

  /**
   * Each thread took the place of the one of the same name in the process that was killed. Source:
   * KIP-345, static membership.
   */
  private static void assertTheProcessBeforeIsForgotten(OneMachine machine) throws Exception {
    try (Admin admin = Admin.create(machine.programSettings())) {
      ConsumerGroupDescription group =
          admin.describeConsumerGroups(List.of("kornspur")).all().get().get("kornspur");
      assertThat(group.members())
          .extracting(member -> member.groupInstanceId().orElse(""))
          .containsExactlyInAnyOrder("kornspur-1", "kornspur-2");
    }
  }

  private static Map<String, JsonNode> start(OneMachine machine, String how) throws Exception {
    machine.start();
    Duration ready = machine.awaitReady();
    Report.line("Start %s until ready: %.1f s", how, ready.toMillis() / 1000.0);
    return atRest(machine);
  }

  private static Map<String, JsonNode> atRest(OneMachine machine) throws Exception {
    try (Backlog backlog = machine.backlog()) {
      machine.site().awaitRest(backlog, REST_LIMIT);
    }
    return new HashMap<>(machine.site().lines());
  }
}
