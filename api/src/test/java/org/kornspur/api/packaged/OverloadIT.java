package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.rest.InventedFacts;

/** More facts than may wait to be judged, from a folder and over the interface. */
class OverloadIT {
  private static final int IN_FOLDER = 1500;
  private static final int A_REQUEST = 250;
  private static final int MOST_REQUESTS = 60;
  private static final int MOST_WAITING = 100;
  private static final Duration REST_LIMIT = Duration.ofMinutes(5);

  @Test
  @Timeout(1200)
  void shouldTurnAwayWhatIsTooMuchAndLoseNothingOfWhatItTook(@TempDir Path folder)
      throws Exception {
    Path files = Files.createDirectory(folder.resolve("files"));
    Files.writeString(files.resolve("lots.ndjson"), lots("FOLDER", IN_FOLDER));
    try (OneMachine machine =
        new OneMachine(folder)
            .loading(files)
            .with("KORNSPUR_MOST_WAITING_RECORDS", Integer.toString(MOST_WAITING))) {
      machine.start();
      machine.awaitReady();
      Site site = machine.site();
      try (Backlog backlog = machine.backlog()) {
        Deadline loaded = Deadline.in(REST_LIMIT, "the folder is loaded");
        while (machine.logged(IN_FOLDER + " accepted") == 0) {
          if (loaded.passed()) {
            throw loaded.missed(machine.log());
          }
          Thread.sleep(250);
        }
        site.awaitRest(backlog, REST_LIMIT);
        assertThat(machine.logged("Loading waits")).as("the loader waited").isPositive();
        assertThat(site.standings()).isEqualTo(IN_FOLDER);

        int taken = postUntilTurnedAway(site);
        site.awaitRest(backlog, REST_LIMIT);
        assertThat(site.standings()).isEqualTo(IN_FOLDER + taken);

        Site.Answer later = site.postLines("/api/v1/facts", lots("LATER", 1));
        assertThat(later.status()).isEqualTo(200);
        site.awaitRest(backlog, REST_LIMIT);
        assertThat(site.standings()).isEqualTo(IN_FOLDER + taken + 1);
      }
    }
  }

  /** Posts one request after the other, and tells how many facts were taken before the refusal. */
  private static int postUntilTurnedAway(Site site) throws IOException, InterruptedException {
    int taken = 0;
    for (int request = 0; request < MOST_REQUESTS; request++) {
      Site.Answer answer = site.postLines("/api/v1/facts", lots("POST-" + request, A_REQUEST));
      if (answer.status() == 429) {
        assertThat(answer.retryAfter()).isPositive();
        assertThat(answer.body().path("detail").asText())
            .contains("more than the " + MOST_WAITING + " that may");
        return taken;
      }
      assertThat(answer.status()).as(answer.toString()).isEqualTo(200);
      taken += A_REQUEST;
    }
    throw new AssertionError("None of " + MOST_REQUESTS + " requests was turned away");
  }

  private static String lots(String name, int count) {
    return IntStream.range(0, count)
        .mapToObj(at -> InventedFacts.lot(name + "-fact-" + at, name + "-" + at, "SX", 500) + "\n")
        .collect(Collectors.joining());
  }
}
