package org.kornspur.api.security.login;

import java.io.IOException;
import org.kornspur.api.SharedMachine;
import org.kornspur.api.TestFolder;
import org.kornspur.api.packaged.OneMachine;

/** A machine that heeds what a proxy says of a request, and is soon asked too often. */
abstract class ProxyMachine extends SharedMachine {
  private static final int MOST_A_MINUTE = 5;

  private final String trusted;

  private ProxyMachine(String trusted) {
    this.trusted = trusted;
  }

  /** The test speaks from the address of the proxy. */
  static final class Trusted extends ProxyMachine {
    Trusted() {
      super("127.0.0.1,::1");
    }
  }

  /** The proxy is another machine. */
  static final class Foreign extends ProxyMachine {
    Foreign() {
      super("192.0.2.7");
    }
  }

  @Override
  protected final OneMachine prepared() throws IOException {
    return new OneMachine(TestFolder.emptied("proxy-machine-" + getClass().getSimpleName()))
        .with("KORNSPUR_ANONYMOUS_REQUESTS_PER_MINUTE", Integer.toString(MOST_A_MINUTE))
        .with("QUARKUS_HTTP_PROXY_PROXY_ADDRESS_FORWARDING", "true")
        .with("QUARKUS_HTTP_PROXY_ALLOW_X_FORWARDED", "true")
        .with("QUARKUS_HTTP_PROXY_TRUSTED_PROXIES", trusted);
  }
}
