package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.producer.ProducerConfig;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.LoadReport;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.publish.PublishFailed;
import org.kornspur.ingest.verify.VerifyCommand;

/** The packaged application is killed in the middle of loading, and loses and doubles nothing. */
class KillAndReloadIT {

  private static final int SENT_BEFORE_LOOKING = 250;
  private static final int THROUGH_BEFORE_THE_KILL = 500;

  /** A loader whose machine is killed is not to wait for two minutes. */
  private static final Map<String, Object> SOON_LOST =
      Map.of(
          ProducerConfig.DELIVERY_TIMEOUT_MS_CONFIG, 6_000,
          ProducerConfig.REQUEST_TIMEOUT_MS_CONFIG, 5_000);

  private static final Duration REST_LIMIT = Duration.ofMinutes(10);

  @Test
  @Timeout(1800)
  void shouldStandWhereAnUndisturbedRunStands(@TempDir Path folder) throws Exception {
    UndisturbedRun undisturbed = UndisturbedRun.ofAPart();
    Path files = DemoFacts.partInto(folder);
    Report.line(
        "First start to first standing %.1f s, to rest %.1f s, with %d crops and lots",
        undisturbed.millisToFirstStanding() / 1000.0,
        undisturbed.millisToRest() / 1000.0,
        undisturbed.everything().size() / 2);

    try (OneMachine machine = new OneMachine(Files.createDirectory(folder.resolve("killed")))) {
      machine.start();
      machine.awaitReady();
      loadUntilKilled(machine, files);

      machine.start();
      Duration restart = machine.awaitReady();
      Report.line("Restart after SIGKILL until ready: %.1f s", restart.toMillis() / 1000.0);

      LoadReport report = load(machine, files);
      assertThat(report.accepted()).isGreaterThan(THROUGH_BEFORE_THE_KILL);
      try (Backlog backlog = machine.backlog()) {
        machine.site().awaitRest(backlog, REST_LIMIT);
      }
      Map<String, JsonNode> everything = machine.site().everything();
      assertThat(everything.keySet()).isEqualTo(undisturbed.everything().keySet());
      undisturbed
          .everything()
          .forEach(
              (address, answer) ->
                  assertThat(everything.get(address)).as(address).isEqualTo(answer));

      assertChainIsWhole(machine);
    }
  }

  /**
   * The kill made no fork and lost no link: the chain holds, running and then stopped by a kill.
   */
  private static void assertChainIsWhole(OneMachine machine) throws InterruptedException {
    Deadline deadline = Deadline.in(Duration.ofMinutes(3), "every record is signed");
    OneMachine.Outcome running = machine.verifyRunning();
    while (!running.text().matches("(?s).*INTACT: (\\d+) of \\1 .*") && !deadline.passed()) {
      Thread.sleep(500);
      running = machine.verifyRunning();
    }
    Report.line("Verified after SIGKILL: %s", running.text());
    assertThat(running.exitCode()).as(running.text()).isEqualTo(VerifyCommand.INTACT);
    assertThat(running.text()).containsPattern("INTACT: (\\d+) of \\1 ");

    machine.kill();
    OneMachine.Outcome stopped = machine.verifyStopped();
    assertThat(stopped.text()).isEqualTo(running.text());
  }

  /** Facts are still on their way when the process goes: sent, stored, half processed. */
  private static void loadUntilKilled(OneMachine machine, Path files) throws IOException {
    FactPublisher publisher = connect(machine, SOON_LOST);
    UntilKilled sink = new UntilKilled(machine, publisher);
    try {
      FolderLoader.load(files, Clock.systemUTC(), sink, LoadProgress.SILENT);
    } catch (Killed expected) {
      assertThat(sink.sent).isGreaterThanOrEqualTo(THROUGH_BEFORE_THE_KILL);
    }
    assertThat(sink.killed).as("the process was killed before the load was through").isTrue();
    try {
      publisher.close();
    } catch (PublishFailed lost) {
      Report.line("The loader says: %s", lost.getMessage());
    }
  }

  private static LoadReport load(OneMachine machine, Path files) throws IOException {
    try (FactPublisher publisher = connect(machine, Map.of())) {
      return FolderLoader.load(files, Clock.systemUTC(), publisher, LoadProgress.SILENT);
    }
  }

  private static FactPublisher connect(OneMachine machine, Map<String, Object> more)
      throws IOException {
    Map<String, Object> settings = new HashMap<>(machine.clientSettings());
    settings.putAll(more);
    return FactPublisher.connect(settings);
  }

  private static final class Killed extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }

  /** Hands on to the loader's publisher, and kills when so many facts are known to be stored. */
  private static final class UntilKilled implements FactSink {
    private final OneMachine machine;
    private final FactPublisher publisher;
    private int sent;
    private boolean killed;

    UntilKilled(OneMachine machine, FactPublisher publisher) {
      this.machine = machine;
      this.publisher = publisher;
    }

    @Override
    public void accept(SpecificRecord fact) {
      sent++;
      var stored = publisher.publish(fact);
      if (sent == SENT_BEFORE_LOOKING) {
        awaitSomeStandings();
      }
      if (sent == THROUGH_BEFORE_THE_KILL) {
        stored.join();
        kill();
      }
    }

    @Override
    public void refuse(QuarantineEntry entry) {
      publisher.refuse(entry);
    }

    private void awaitSomeStandings() {
      try {
        Deadline deadline = Deadline.in(Duration.ofMinutes(3), "some standings can be read");
        while (machine.site().standings() == 0) {
          if (deadline.passed()) {
            throw deadline.missed("there are none");
          }
          Thread.sleep(50);
        }
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }

    private void kill() {
      try (Backlog backlog = machine.backlog()) {
        long behind = backlog.records();
        machine.kill();
        killed = true;
        Report.line("Killed with %d facts stored and %d records not processed", sent, behind);
        assertThat(behind)
            .as("records that the processors had before them")
            .isPositive()
            .isNotEqualTo(Backlog.UNKNOWN);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
      throw new Killed();
    }
  }
}
