package org.kornspur.ingest.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The command as a process of its own, since its exit code is what a script sees.
 *
 * <p>Source: GNU Coding Standards, 4.8.2: {@code --help} prints to standard output how the program
 * is called and exits successfully, whatever else is given.
 */
@Timeout(300)
class MainTest {

  @ParameterizedTest
  @ValueSource(strings = {"--help", "-h", "help", "some-folder --help", "some-folder --report -h"})
  void helpTellsHowAFolderIsLoadedAndThatVerifyExists(String line) throws Exception {
    Ended ended = run(line);
    assertThat(ended.out())
        .startsWith("Usage: java -jar ingest.jar <folder>")
        .contains("--bootstrap HOST:PORT", "ingest.jar verify --help");
    assertThat(ended.code()).isZero();
  }

  @ParameterizedTest
  @ValueSource(strings = {"verify --help", "verify -h", "help verify", "verify log.json --help"})
  void helpTellsHowToVerify(String line) throws Exception {
    Ended ended = run(line);
    assertThat(ended.out())
        .startsWith("Usage: java -jar ingest.jar verify")
        .contains("--data-folder FOLDER", "--trust FOLDER");
    assertThat(ended.code()).isZero();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "--fast", "verify", "verify --fast"})
  void aWrongCommandLineIsNoSuccess(String line) throws Exception {
    Ended ended = run(line);
    assertThat(ended.out()).isEmpty();
    assertThat(ended.code()).isEqualTo(1);
  }

  private record Ended(int code, String out) {}

  private static Ended run(String line) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName()));
    if (!line.isEmpty()) {
      command.addAll(List.of(line.split(" ")));
    }
    Process process =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor(2, TimeUnit.MINUTES)).isTrue();
    return new Ended(process.exitValue(), out);
  }
}
