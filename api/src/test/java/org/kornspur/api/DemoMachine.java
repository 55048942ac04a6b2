package org.kornspur.api;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;

/** The whole of Kornspur in the process of the test, with the invented enterprise loaded. */
public final class DemoMachine implements QuarkusTestProfile {

  @Override
  public Map<String, String> getConfigOverrides() {
    Map<String, String> settings = new HashMap<>(new OneMachine().getConfigOverrides());
    settings.put("kornspur.load", Path.of("..", "demo-events").toAbsolutePath().toString());
    return settings;
  }
}
