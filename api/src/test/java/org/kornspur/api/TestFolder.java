package org.kornspur.api;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** Folders that outlive a test class. */
public final class TestFolder {
  private static final String PROCESS = System.getProperty("test.process", "1");

  private TestFolder() {}

  /** The empty folder of this name and of this process of tests. */
  public static Path emptied(String name) throws IOException {
    return emptied(Path.of("target", name + "-" + PROCESS));
  }

  /** A folder, made empty. */
  public static Path emptied(Path folder) throws IOException {
    if (Files.exists(folder)) {
      try (Stream<Path> files = Files.walk(folder)) {
        List<Path> innermostFirst = files.sorted(Comparator.reverseOrder()).toList();
        for (Path file : innermostFirst) {
          Files.delete(file);
        }
      }
    }
    return Files.createDirectories(folder);
  }
}
