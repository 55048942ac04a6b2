package org.kornspur.api;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import org.kornspur.api.security.people.TestPeople;

/** The whole of Kornspur in the process of the test: broker, registry, processors, interface. */
public final class InProcessProfile implements QuarkusTestProfile {

  @Override
  public Map<String, String> getConfigOverrides() {
    try {
      // Open to others, as earlier releases made it.
      Path dataFolder =
          Files.createDirectory(Files.createTempDirectory("kornspur-test").resolve("data"));
      Files.setPosixFilePermissions(dataFolder, PosixFilePermissions.fromString("rwxr-xr-x"));
      TestPeople.writeInto(dataFolder);
      return Map.of(
          "kornspur.data-folder",
          dataFolder.toString(),
          "kornspur.requests-per-minute",
          "1000000",
          "kornspur.anonymous-requests-per-minute",
          "1000000",
          "kornspur.broker-port",
          "0",
          "kornspur.registry-port",
          "0",
          "kornspur.checkpoint-interval",
          "PT1S",
          "kornspur.partitions",
          "2",
          "quarkus.http.test-port",
          "0");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
