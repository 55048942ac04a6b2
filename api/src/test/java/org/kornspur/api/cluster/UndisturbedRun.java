package org.kornspur.api.cluster;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;

/**
 * What the demo's facts come to in one process that nothing happens to: loaded at its start, as the
 * README's run command does it.
 *
 * @param everything standings and dossiers by address
 * @param startToFirstStanding from the start of the process on an empty folder
 * @param startToRest until all was judged and nothing moved any more
 */
record UndisturbedRun(
    Map<String, JsonNode> everything, Duration startToFirstStanding, Duration startToRest) {

  private static final Duration FIRST_STANDING_LIMIT = Duration.ofMinutes(5);
  private static final Duration REST_LIMIT = Duration.ofMinutes(10);

  private static UndisturbedRun once;

  /** Runs it at the first call; the tests of one process share it. */
  static synchronized UndisturbedRun get(Path folder) throws Exception {
    if (once == null) {
      once = run(folder);
    }
    return once;
  }

  private static UndisturbedRun run(Path folder) throws Exception {
    try (OneMachine machine = new OneMachine(folder).loading(DemoFacts.FOLDER)) {
      Deadline first = Deadline.in(FIRST_STANDING_LIMIT, "the first standing can be read");
      machine.start();
      machine.awaitReady();
      while (machine.site().standings() == 0) {
        if (first.passed()) {
          throw first.missed("no crop and no lot has a standing");
        }
        Thread.sleep(100);
      }
      Duration startToFirstStanding = first.elapsed();
      try (Backlog backlog = machine.backlog()) {
        machine.site().awaitRest(backlog, REST_LIMIT);
      }
      Duration startToRest = first.elapsed();
      return new UndisturbedRun(machine.site().everything(), startToFirstStanding, startToRest);
    }
  }
}
