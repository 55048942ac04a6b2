package org.kornspur.api;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.Map;

/** The whole of Kornspur in the process of the test: broker, registry, processors, interface. */
public final class OneMachine implements QuarkusTestProfile {

  @Override
  public Map<String, String> getConfigOverrides() {
    try {
      return Map.of(
          "kornspur.data-folder",
          Files.createTempDirectory("kornspur-test").toString(),
          "kornspur.broker-port",
          "0",
          "kornspur.registry-port",
          "0",
          "kornspur.partitions",
          "2",
          "quarkus.http.test-port",
          "0");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
