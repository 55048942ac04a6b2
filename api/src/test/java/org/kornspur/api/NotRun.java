package org.kornspur.api;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * What was left out for want of a program: one file for each in {@code target/not-run}, which the
 * end of the build prints and {@code .ci/run} looks at.
 */
public final class NotRun {
  private static final Path FOLDER = Path.of("target", "not-run");

  private NotRun() {}

  /** Notes whether the tests which need this program were left out; an earlier note is replaced. */
  public static void note(Program program, boolean leftOut) {
    Path note = FOLDER.resolve(program.name().toLowerCase(Locale.ROOT));
    try {
      if (leftOut) {
        Files.createDirectories(FOLDER);
        Files.writeString(note, program.notRun() + "\n");
      } else {
        Files.deleteIfExists(note);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Prints what was left out. */
  public static void main(String[] args) throws IOException {
    if (!Files.isDirectory(Path.of(args[0]))) {
      return;
    }
    try (Stream<Path> parts = Files.list(Path.of(args[0]))) {
      List<Path> sorted = parts.sorted().toList();
      for (Path part : sorted) {
        System.out.print(Files.readString(part));
      }
    }
  }
}
