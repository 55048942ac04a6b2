package org.kornspur.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.ingest.publish.OneBroker;
import org.kornspur.ingest.publish.SharedRegistry;

@Timeout(600)
class LoadCommandTest {

  @TempDir Path temporary;

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();

  @Test
  void aFolderInOrderEndsWithZero() throws IOException {
    Path folder = folder(FolderLoaderTest.moisture("a"));

    int code = run(false, folder.toString(), "--check-only");

    assertThat(code).isZero();
    assertThat(text(out)).isEqualTo("1 file, 1 input: 1 accepted, 0 refused\n");
    assertThat(text(err)).isEqualTo("[1/1] facts.ndjson\n");
  }

  @Test
  void aRefusedLineEndsWithTwoAndIsReportedInTheFileToo() throws IOException {
    Path folder = folder(FolderLoaderTest.moisture("a") + "\n{\"type\": 1}");
    Path report = temporary.resolve("report.txt");

    int code = run(true, folder.toString(), "--check-only", "--report", report.toString());

    assertThat(code).isEqualTo(2);
    assertThat(text(out))
        .startsWith("facts.ndjson:2 refused\n  type is 1; expected one of Admixture")
        .contains("  > {\"type\": 1}\n");
    assertThat(Files.readString(report)).isEqualTo(text(out));
    assertThat(text(err))
        .contains("[##############################] file 1 of 1, 1 accepted, 1 ref");
  }

  @Test
  void wrongCommandLinesEndWithOneAndSayWhy() throws IOException {
    assertThat(run(false)).isEqualTo(1);
    assertThat(run(false, "a", "b")).isEqualTo(1);
    assertThat(run(false, "a", "--bootstrap")).isEqualTo(1);
    assertThat(run(false, "a", "--fast")).isEqualTo(1);
    assertThat(run(false, temporary.resolve("none").toString(), "--check-only")).isEqualTo(1);
    assertThat(text(err))
        .contains("Name the folder to load")
        .contains("Two folders, a and b")
        .contains("Option --bootstrap needs a value")
        .contains("There is no option --fast")
        .contains("Cannot read or write")
        .contains("Usage: java -jar ingest.jar <folder>");
  }

  @Test
  void aBrokerThatDoesNotAnswerEndsWithOne() throws IOException {
    Path settings = settings("max.block.ms=500");

    int code =
        run(
            false,
            folder(FolderLoaderTest.moisture("a") + "\n" + FolderLoaderTest.moisture("b"))
                .toString(),
            "--bootstrap",
            "127.0.0.1:9",
            "--producer",
            settings.toString());

    assertThat(code).isEqualTo(1);
    assertThat(text(err)).contains("a did not reach topic kornspur.facts").doesNotContain("Usage");
  }

  @Test
  void anAddressThatIsNoneEndsWithOne() throws IOException {
    int code =
        run(false, folder(FolderLoaderTest.moisture("a")).toString(), "--bootstrap", "nowhere");

    assertThat(code).isEqualTo(1);
    assertThat(text(err)).contains("No connection to Kafka").contains("nowhere");
  }

  @Test
  void aLoadIntoARealBrokerMayBeRepeated() throws Exception {
    Path folder = folder(FolderLoaderTest.moisture("a") + "\nnonsense\n");
    try (OneBroker broker = OneBroker.start(temporary.resolve("broker"))) {
      String there = "bootstrap.servers=" + broker.bootstrap();
      assertThat(run(false, folder.toString(), "--client", settings(there).toString()))
          .as("the file names the brokers")
          .isEqualTo(2);
      String elsewhere = settings("bootstrap.servers=127.0.0.1:9").toString();
      assertThat(
              run(
                  false,
                  folder.toString(),
                  "--bootstrap",
                  broker.bootstrap(),
                  "--client",
                  elsewhere))
          .as("an option counts before the file")
          .isEqualTo(2);
    }
    assertThat(text(out)).contains("1 accepted, 1 refused");
  }

  private Path folder(String lines) throws IOException {
    Path folder = Files.createDirectory(temporary.resolve("facts"));
    Files.writeString(folder.resolve("facts.ndjson"), lines);
    return folder;
  }

  private Path settings(String more) throws IOException {
    return Files.writeString(
        temporary.resolve("producer.properties"),
        "kornspur.value.serializer=" + SharedRegistry.class.getName() + "\n" + more + "\n");
  }

  private int run(boolean terminal, String... arguments) {
    return LoadCommand.run(
        new PrintStream(out, true, StandardCharsets.UTF_8),
        new PrintStream(err, true, StandardCharsets.UTF_8),
        terminal,
        arguments);
  }

  private static String text(ByteArrayOutputStream bytes) {
    return bytes.toString(StandardCharsets.UTF_8);
  }
}
