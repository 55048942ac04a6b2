package org.kornspur.api;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;

/**
 * The whole of Kornspur in the process of the test, with the invented enterprise loaded, and an
 * invented GTIN for one of its hybrids.
 */
public final class DemoMachine implements QuarkusTestProfile {

  public static final String GTIN = "04012345000016";
  public static final String ADDRESS = "https://seed.example";

  @Override
  public Map<String, String> getConfigOverrides() {
    Map<String, String> settings = new HashMap<>(new OneMachine().getConfigOverrides());
    settings.put("kornspur.load", Path.of("..", "demo-events").toAbsolutePath().toString());
    settings.put("kornspur.public-address", ADDRESS);
    settings.put("kornspur.gs1-company-prefix", "4012345");
    settings.put("kornspur.gtin.\"HYB-01\"", GTIN);
    return settings;
  }
}
