package org.kornspur.ingest.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * Writes the demo folder again and removes what is no longer of it.
 *
 * <pre>{@code
 * mvn -q -pl ingest test-compile dependency:build-classpath -Dmdep.outputFile=target/demo.classpath
 * java -cp ingest/target/test-classes:ingest/target/classes:$(cat ingest/target/demo.classpath) \
 *     org.kornspur.ingest.demo.WriteDemo demo-events
 * }</pre>
 */
public final class WriteDemo {
  private static final String FOLDER = "demo-events";

  private WriteDemo() {}

  /**
   * Writes the demo.
   *
   * @param args path of the folder, whose name must be {@code demo-events}
   */
  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args.length == 1 ? args[0] : FOLDER).toAbsolutePath().normalize();
    if (!folder.endsWith(FOLDER)) {
      throw new IllegalArgumentException(
          folder + " is not called " + FOLDER + "; files in it would be removed. Name that folder");
    }
    Map<String, String> files = DemoEvents.invented().files();
    Files.createDirectories(folder);
    for (Path old : filesIn(folder)) {
      if (!files.containsKey(relative(folder, old))) {
        Files.delete(old);
      }
    }
    for (Map.Entry<String, String> file : files.entrySet()) {
      Path path = folder.resolve(file.getKey());
      Files.createDirectories(path.getParent());
      Files.writeString(path, file.getValue());
    }
  }

  /** Every file below the folder. */
  static List<Path> filesIn(Path folder) throws IOException {
    try (Stream<Path> paths = Files.walk(folder)) {
      return paths.filter(Files::isRegularFile).sorted().toList();
    }
  }

  /** Path below the folder, with slashes. */
  static String relative(Path folder, Path file) {
    return folder.relativize(file).toString().replace('\\', '/');
  }
}
