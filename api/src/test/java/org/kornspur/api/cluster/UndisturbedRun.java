package org.kornspur.api.cluster;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.kornspur.api.TestFolder;

/**
 * What the demo's facts come to in one process that nothing happens to: loaded at its start, as the
 * README's run command does it. It runs once for all processes of tests of a build.
 *
 * @param build of which it is
 * @param everything standings and dossiers by address
 * @param millisToFirstStanding from the start of the process on an empty folder
 * @param millisToRest until all was judged and nothing moved any more
 */
public record UndisturbedRun(
    String build, Map<String, JsonNode> everything, long millisToFirstStanding, long millisToRest) {

  private static final Duration FIRST_STANDING_LIMIT = Duration.ofMinutes(5);
  private static final Duration REST_LIMIT = Duration.ofMinutes(10);

  private static final Path FOLDER = Path.of("target", "undisturbed-run");
  private static final Path RESULT = Path.of("target", "undisturbed-run.json");
  private static final Path LOCK = Path.of("target", "undisturbed-run.lock");
  private static final ObjectMapper JSON = new ObjectMapper();

  private static UndisturbedRun once;

  /** Runs it where nobody has in this build; others wait for it. */
  public static synchronized UndisturbedRun get() throws Exception {
    if (once == null) {
      try (FileChannel file =
              FileChannel.open(LOCK, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
          FileLock lock = file.lock()) {
        String build = System.getProperty("test.build", UUID.randomUUID().toString());
        if (Files.exists(RESULT)) {
          once = JSON.readValue(RESULT.toFile(), UndisturbedRun.class);
        }
        if (once == null || !once.build().equals(build)) {
          once = run(build, TestFolder.emptied(FOLDER));
          JSON.writeValue(RESULT.toFile(), once);
        }
      }
    }
    return once;
  }

  /** Copies what it left when it was asked to end, for a machine that goes on from there. */
  public void copyInto(Path other) throws IOException {
    try (Stream<Path> files = Files.walk(FOLDER)) {
      for (Path file : files.skip(1).toList()) {
        Files.copy(
            file,
            other.resolve(FOLDER.relativize(file).toString()),
            StandardCopyOption.COPY_ATTRIBUTES);
      }
    }
  }

  private static UndisturbedRun run(String build, Path folder) throws Exception {
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
      long millisToFirstStanding = first.elapsed().toMillis();
      try (Backlog backlog = machine.backlog()) {
        machine.site().awaitRest(backlog, REST_LIMIT);
      }
      long millisToRest = first.elapsed().toMillis();
      Map<String, JsonNode> everything = machine.site().everything();
      machine.stop();
      return new UndisturbedRun(build, everything, millisToFirstStanding, millisToRest);
    }
  }
}
