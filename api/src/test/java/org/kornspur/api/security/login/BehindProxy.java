package org.kornspur.api.security.login;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.util.HashMap;
import java.util.Map;
import org.kornspur.api.OneMachine;

/** One machine that heeds what a proxy says of a request, and is soon asked too often. */
public abstract class BehindProxy implements QuarkusTestProfile {
  static final int MOST_A_MINUTE = 5;

  private final String trusted;

  private BehindProxy(String trusted) {
    this.trusted = trusted;
  }

  /** The test speaks from the address of the proxy. */
  public static final class Trusted extends BehindProxy {
    public Trusted() {
      super("127.0.0.1,::1");
    }
  }

  /** The proxy is another machine. */
  public static final class Foreign extends BehindProxy {
    public Foreign() {
      super("192.0.2.7");
    }
  }

  @Override
  public Map<String, String> getConfigOverrides() {
    Map<String, String> settings = new HashMap<>(new OneMachine().getConfigOverrides());
    settings.put("kornspur.anonymous-requests-per-minute", Integer.toString(MOST_A_MINUTE));
    settings.put("quarkus.http.proxy.proxy-address-forwarding", "true");
    settings.put("quarkus.http.proxy.allow-x-forwarded", "true");
    settings.put("quarkus.http.proxy.trusted-proxies", trusted);
    return settings;
  }
}
