package org.kornspur.api.cluster;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.Comparator;
import java.util.Map;
import java.util.stream.Stream;

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

  /** It outlives each of the tests that share it. */
  private static final Path FOLDER = Path.of("target", "undisturbed-run");

  private static UndisturbedRun once;

  /** Runs it at the first call; the tests of one process share it. */
  static synchronized UndisturbedRun get() throws Exception {
    if (once == null) {
      once = run(emptied(FOLDER));
    }
    return once;
  }

  /** Copies what it left when it was asked to end, for a machine that goes on from there. */
  void copyInto(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(FOLDER)) {
      for (Path file : files.skip(1).toList()) {
        Files.copy(
            file,
            folder.resolve(FOLDER.relativize(file).toString()),
            StandardCopyOption.COPY_ATTRIBUTES);
      }
    }
  }

  private static Path emptied(Path folder) throws IOException {
    if (Files.exists(folder)) {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
    return Files.createDirectories(folder);
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
      Map<String, JsonNode> everything = machine.site().everything();
      machine.stop();
      return new UndisturbedRun(everything, startToFirstStanding, startToRest);
    }
  }
}
