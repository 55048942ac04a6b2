package org.kornspur.api.security.visibility;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.kornspur.api.InProcessProfile;

/** One machine with three seasons of the demo. */
public final class DemoProfile implements QuarkusTestProfile {
  static final List<Path> SEASONS =
      Stream.of("2022", "2023", "2024")
          .map(season -> Path.of("..", "demo-events", season).toAbsolutePath().normalize())
          .toList();

  @Override
  public Map<String, String> getConfigOverrides() {
    try {
      Path folder = Files.createTempDirectory("kornspur-demo");
      for (Path season : SEASONS) {
        Path copy = Files.createDirectory(folder.resolve(season.getFileName()));
        try (Stream<Path> files = Files.list(season)) {
          for (Path file : files.toList()) {
            Files.copy(file, copy.resolve(file.getFileName()));
          }
        }
      }
      Map<String, String> settings = new HashMap<>(new InProcessProfile().getConfigOverrides());
      settings.put("kornspur.load", folder.toString());
      return settings;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
