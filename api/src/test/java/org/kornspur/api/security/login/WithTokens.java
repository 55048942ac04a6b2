package org.kornspur.api.security.login;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.InProcessProfile;

/** One machine whose people are known to an issuer of tokens, and that is soon asked too often. */
public final class WithTokens implements QuarkusTestProfile {
  static final int MOST_A_MINUTE = 100;
  static final int MOST_A_MINUTE_OF_NOBODY = 40;
  static final int SIGNING_SECONDS = 15;

  @Override
  public Map<String, String> getConfigOverrides() {
    Map<String, String> settings = new HashMap<>(new InProcessProfile().getConfigOverrides());
    settings.put("kornspur.access", "oidc");
    settings.put("kornspur.notifications.private-addresses", "true");
    settings.put("kornspur.notifications.interval", "PT0.5S");
    settings.put("kornspur.signing-window", SIGNING_SECONDS + "S");
    settings.put("kornspur.requests-per-minute", Integer.toString(MOST_A_MINUTE));
    settings.put(
        "kornspur.anonymous-requests-per-minute", Integer.toString(MOST_A_MINUTE_OF_NOBODY));
    return settings;
  }

  @Override
  public List<TestResourceEntry> testResources() {
    return List.of(new TestResourceEntry(TokenIssuer.class));
  }
}
