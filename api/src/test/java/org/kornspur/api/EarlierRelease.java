package org.kornspur.api;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A release before this one, built from its commit into {@code target}, once for each commit. Its
 * state is what running sites have.
 */
public enum EarlierRelease {
  /** The oldest whose data folder this one takes over: it asked for less. */
  OLDEST("86a110addabe9776956dc096cf37cf4e713fd982"),
  /** The last one: instances of both may run side by side. Set it to the next with each release. */
  LAST("778f964434209f3998aacf24e8e4eea4f17bb7ac");

  private static final Path ROOT = Path.of("..").toAbsolutePath().normalize();
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

  private final String commit;

  EarlierRelease(String commit) {
    this.commit = commit;
  }

  /** Whether this checkout knows all the commits. */
  static boolean areInHistory() {
    return Arrays.stream(values()).allMatch(EarlierRelease::isInHistory);
  }

  private boolean isInHistory() {
    try {
      return run(ROOT, List.of("git", "cat-file", "-e", commit + "^{commit}")) == 0;
    } catch (IOException noGit) {
      return false;
    }
  }

  /** The program to start; built where it is not there yet. */
  public Path jar() throws IOException {
    Path folder = Path.of("target", "earlier-release", commit).toAbsolutePath().normalize();
    Path jar = folder.resolve(Path.of("api", "target", "quarkus-app", "quarkus-run.jar"));
    if (!Files.exists(jar)) {
      if (!Files.exists(folder.resolve("pom.xml"))) {
        Files.createDirectories(folder.getParent());
        must(ROOT, "git", "clone", "-q", "--no-checkout", ROOT.toString(), folder.toString());
        must(folder, "git", "checkout", "-q", commit);
      }
      List<String> offline = new ArrayList<>(PACKAGE);
      offline.add("-o");
      if (run(folder, offline) != 0) {
        must(folder, PACKAGE.toArray(String[]::new));
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
