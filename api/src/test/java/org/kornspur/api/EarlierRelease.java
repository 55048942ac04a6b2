package org.kornspur.api;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * The release before this one, built from its commit into {@code target}, once for each commit. Its
 * state is what running sites have.
 */
public final class EarlierRelease {
  /** The last commit of the release. Set it to the next one with each release. */
  static final String COMMIT = "86a110addabe9776956dc096cf37cf4e713fd982";

  private static final Path ROOT = Path.of("..").toAbsolutePath().normalize();
  private static final Path FOLDER =
      Path.of("target", "earlier-release", COMMIT).toAbsolutePath().normalize();
  private static final int LONGEST_BUILD_MINUTES = 20;

  /** Whatever only checks or describes the build, and all tests, are left out. */
  private static final List<String> PACKAGE =
      List.of(
          "mvn",
          "-B",
          "-ntp",
          "-q",
          "package",
          "-Dmaven.test.skip=true",
          "-Dspotless.check.skip=true",
          "-Dcyclonedx.skip=true");

  private EarlierRelease() {}

  /** Whether this checkout knows the commit. */
  static boolean isInHistory() {
    try {
      return run(ROOT, List.of("git", "cat-file", "-e", COMMIT + "^{commit}")) == 0;
    } catch (IOException noGit) {
      return false;
    }
  }

  /** The program to start; built where it is not there yet. */
  public static Path jar() throws IOException {
    Path jar = FOLDER.resolve(Path.of("api", "target", "quarkus-app", "quarkus-run.jar"));
    if (!Files.exists(jar)) {
      if (!Files.exists(FOLDER.resolve("pom.xml"))) {
        Files.createDirectories(FOLDER.getParent());
        must(ROOT, "git", "clone", "-q", "--no-checkout", ROOT.toString(), FOLDER.toString());
        must(FOLDER, "git", "checkout", "-q", COMMIT);
      }
      List<String> offline = new ArrayList<>(PACKAGE);
      offline.add("-o");
      if (run(FOLDER, offline) != 0) {
        must(FOLDER, PACKAGE.toArray(String[]::new));
      }
    }
    return jar;
  }

  private static void must(Path folder, String... command) throws IOException {
    int exitCode = run(folder, List.of(command));
    if (exitCode != 0) {
      throw new IOException(
          String.join(" ", command) + " ended with " + exitCode + "; see " + log());
    }
  }

  private static int run(Path folder, List<String> command) throws IOException {
    Files.createDirectories(log().toPath().getParent());
    Process process =
        new ProcessBuilder(command)
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.appendTo(log()))
            .start();
    try {
      if (!process.waitFor(LONGEST_BUILD_MINUTES, TimeUnit.MINUTES)) {
        process.destroyForcibly();
        throw new IOException(String.join(" ", command) + " does not end");
      }
      return process.exitValue();
    } catch (InterruptedException stopped) {
      process.destroyForcibly();
      throw new UncheckedIOException(new IOException(stopped));
    }
  }

  private static File log() {
    return Path.of("target", "earlier-release", "build.log").toAbsolutePath().toFile();
  }
}
