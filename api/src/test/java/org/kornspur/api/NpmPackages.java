package org.kornspur.api;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * Packages that only the npm registry has: GS1's EPCIS schema with a validator of another make, and
 * the schema of the Compose Specification. They are installed as {@code src/test/npm} locks them,
 * once for each state of the lock file. A test that asks for them {@link NeedsProgram}.
 */
public final class NpmPackages {
  private static final Path SOURCE = Path.of("src", "test", "npm");
  private static final Path FOLDER = Path.of("target", "npm").toAbsolutePath();
  private static final Path INSTALLED = FOLDER.resolve("installed-lock.json");

  /** Two processes of tests must not install at once. */
  private static final Path TURN = FOLDER.resolveSibling("npm.lock");

  private static final long DOWNLOAD_LIMIT_S = 180;

  /** Of an installation that failed: it fails the next test too, without a second wait. */
  private static IOException failure;

  private NpmPackages() {}

  /** The folder with {@code node_modules} and our scripts. */
  public static synchronized Path folder() throws IOException, InterruptedException {
    Files.createDirectories(FOLDER);
    try (FileChannel file =
            FileChannel.open(TURN, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock turn = file.lock()) {
      copySources();
      Path lock = FOLDER.resolve("package-lock.json");
      if (!Files.exists(INSTALLED) || Files.mismatch(lock, INSTALLED) >= 0) {
        if (failure != null) {
          throw failure;
        }
        install();
        Files.copy(lock, INSTALLED, StandardCopyOption.REPLACE_EXISTING);
      }
    }
    return FOLDER;
  }

  private static void copySources() throws IOException {
    try (Stream<Path> sources = Files.list(SOURCE)) {
      for (Path source : sources.toList()) {
        Files.copy(
            source,
            FOLDER.resolve(source.getFileName().toString()),
            StandardCopyOption.REPLACE_EXISTING);
      }
    }
  }

  private static void install() throws IOException, InterruptedException {
    Path log = FOLDER.resolve("npm.log");
    String npm = Program.NPM.find().orElseThrow().toString();
    Process process =
        new ProcessBuilder(List.of(npm, "ci", "--ignore-scripts", "--prefer-offline", "--no-audit"))
            .directory(FOLDER.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    boolean ended = process.waitFor(DOWNLOAD_LIMIT_S, TimeUnit.SECONDS);
    process.destroyForcibly();
    if (!ended || process.exitValue() != 0) {
      failure = new IOException("npm could not install the packages:\n" + Files.readString(log));
      throw failure;
    }
  }
}
