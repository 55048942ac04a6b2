package org.kornspur.api.packaged;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** Programs that the build has laid into {@code target}. */
final class PackagedPrograms {

  private PackagedPrograms() {}

  /** The application, as a user starts it. */
  static Path application() {
    return existing(Path.of("target", "quarkus-app", "quarkus-run.jar"));
  }

  /** The schema registry server. */
  static Path registry() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("target", "apicurio"))) {
      return existing(
          files
              .filter(file -> file.toString().endsWith("-runner.jar"))
              .findFirst()
              .orElse(Path.of("target", "apicurio", "apicurio-registry-app-runner.jar")));
    }
  }

  private static Path existing(Path program) {
    if (!Files.exists(program)) {
      throw new IllegalStateException(
          program.toAbsolutePath() + " is not there. Let Maven run these tests: mvn verify");
    }
    return program.toAbsolutePath();
  }
}
