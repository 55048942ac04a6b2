package org.kornspur.api;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** A script of {@code src/test/npm} that answers with JSON. */
public final class NpmScript {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final long LIMIT_MIN = 3;

  private NpmScript() {}

  /**
   * What it printed.
   *
   * @param environment added to that of this process
   */
  public static JsonNode run(String script, Map<String, String> environment, String... arguments)
      throws Exception {
    Path folder = NpmPackages.folder();
    Path output = folder.resolve(script + ".found.json");
    Path errors = folder.resolve(script + ".errors.txt");
    ProcessBuilder node =
        new ProcessBuilder(Stream.concat(Stream.of("node", script), Stream.of(arguments)).toList())
            .directory(folder.toFile())
            .redirectOutput(output.toFile())
            .redirectError(errors.toFile());
    node.environment().putAll(environment);
    Process process = node.start();
    boolean ended = process.waitFor(LIMIT_MIN, TimeUnit.MINUTES);
    process.destroyForcibly();
    assertThat(ended).isTrue();
    assertThat(process.exitValue()).as(Files.readString(errors)).isZero();
    return JSON.readTree(output.toFile());
  }
}
