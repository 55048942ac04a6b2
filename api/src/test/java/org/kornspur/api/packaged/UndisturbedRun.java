package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
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
 * What facts of the demo come to in one process that nothing happens to: loaded at its start, as
 * the README's run command does it. It runs once for all processes of tests of a build.
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

  /** It is enough for the whole demo. */
  private static final String LEAST_HEAP = "-Xmx384m";

  private static final String WHOLE = "undisturbed-run";
  private static final Path TARGET = Path.of("target");
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Copies what a run of the whole demo left when it was asked to end, to go on from there. */
  public static void copyOfWholeDemoInto(Path other) throws Exception {
    once(WHOLE, folder -> DemoFacts.FOLDER, site -> Map.of());
    Path left = TARGET.resolve(WHOLE);
    try (Stream<Path> files = Files.walk(left)) {
      for (Path file : files.skip(1).toList()) {
        Files.copy(
            file,
            other.resolve(left.relativize(file).toString()),
            StandardCopyOption.COPY_ATTRIBUTES);
      }
    }
  }

  /** What {@link DemoFacts#part} comes to, which is less to compare than the whole. */
  static UndisturbedRun ofAPart() throws Exception {
    return once("undisturbed-part", DemoFacts::partInto, Site::everything);
  }

  /** What {@link DemoFacts#seasons} comes to: lots are fit in it. */
  static UndisturbedRun ofTwoSeasons() throws Exception {
    return once("undisturbed-seasons", DemoFacts::seasonsInto, Site::everything);
  }

  /** That a cluster came to the same. */
  void assertSameAs(Map<String, JsonNode> ofCluster) {
    assertThat(ofCluster.keySet()).isEqualTo(everything.keySet());
    everything.forEach(
        (address, answer) ->
            assertThat(withoutRules(ofCluster.get(address)))
                .as(address)
                .isEqualTo(withoutRules(answer)));
  }

  /** The one machine trusts producers and the cluster does not; that is part of its rules. */
  private static JsonNode withoutRules(JsonNode answer) {
    JsonNode copy = answer.deepCopy();
    return copy instanceof ObjectNode object ? object.without("rules") : copy;
  }

  /** The folder of files to load; it may be made in the folder of the process. */
  private interface Load {
    Path in(Path folder) throws IOException;
  }

  private interface Asked {
    Map<String, JsonNode> of(Site site) throws Exception;
  }

  /** Runs it where nobody has in this build; others wait for it. */
  private static UndisturbedRun once(String name, Load load, Asked asked) throws Exception {
    Path result = TARGET.resolve(name + ".json");
    try (FileChannel file =
            FileChannel.open(
                TARGET.resolve(name + ".lock"),
                StandardOpenOption.CREATE,
                StandardOpenOption.WRITE);
        FileLock lock = file.lock()) {
      String build = System.getProperty("test.build", UUID.randomUUID().toString());
      if (Files.exists(result)) {
        UndisturbedRun earlier = JSON.readValue(result.toFile(), UndisturbedRun.class);
        if (earlier.build().equals(build)) {
          return earlier;
        }
      }
      Path folder = TestFolder.emptied(TARGET.resolve(name));
      UndisturbedRun now = run(build, folder, load.in(folder), asked, name.equals(WHOLE));
      JSON.writeValue(result.toFile(), now);
      return now;
    }
  }

  private static UndisturbedRun run(
      String build, Path folder, Path files, Asked asked, boolean keepsClasses) throws Exception {
    try (OneMachine machine = new OneMachine(folder).loading(files).option(LEAST_HEAP)) {
      if (keepsClasses) {
        ClassDataArchive.keepFrom(machine);
      }
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
      Map<String, JsonNode> everything = asked.of(machine.site());
      if (machine.stop() && keepsClasses) {
        ClassDataArchive.kept();
      }
      return new UndisturbedRun(build, everything, millisToFirstStanding, millisToRest);
    }
  }
}
