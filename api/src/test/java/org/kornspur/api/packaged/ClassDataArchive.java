package org.kornspur.api.packaged;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;

/**
 * The classes of the packaged application as one start of this build has loaded them, so that the
 * starts after it need not read and verify 11,000 of them anew, which is an eighth of a start. Java
 * itself passes over what does not belong to the application that is started. Source: JEP 350,
 * Dynamic CDS Archives.
 */
final class ClassDataArchive {
  private static final Path FILE = Path.of("target", "loaded-classes.jsa").toAbsolutePath();
  private static final Path BEING_WRITTEN = FILE.resolveSibling("loaded-classes.part");

  private ClassDataArchive() {}

  /** For a process of {@code java} that uses them, where they are there. */
  static List<String> options() {
    return Files.exists(FILE) ? List.of("-XX:SharedArchiveFile=" + FILE) : List.of();
  }

  /** Lets a process write them down at its end. */
  static void keepFrom(OneMachine machine) throws IOException {
    Files.deleteIfExists(FILE);
    Files.deleteIfExists(BEING_WRITTEN);
    machine.option("-XX:ArchiveClassesAtExit=" + BEING_WRITTEN);
  }

  /** That process has ended; nobody sees half a file. */
  static void kept() throws IOException {
    if (Files.exists(BEING_WRITTEN)) {
      Files.move(BEING_WRITTEN, FILE, StandardCopyOption.ATOMIC_MOVE);
    }
  }
}
