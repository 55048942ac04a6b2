package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.MalformedURLException;
import java.net.Socket;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.SharedMachine;

/** What a trusted proxy says of a request counts: TLS, and from where it came. */
@ExtendWith(ProxyMachine.Trusted.class)
class TrustedProxyIT {

  private URL root;

  @BeforeEach
  void begin() throws MalformedURLException {
    root = new URL(SharedMachine.root());
  }

  @Test
  void theCookieOfALogInByTlsGoesByTlsOnlyAndTheBrowserKeepsToTls() throws Exception {
    Asking.Answer byTls = ForwardedLogIn.of(root, "203.0.113.1", "https");
    assertThat(byTls.status()).as(byTls.body()).isEqualTo(200);
    assertThat(byTls.header("Set-Cookie")).contains("Secure");
    assertThat(byTls.header("Strict-Transport-Security")).startsWith("max-age=");

    Asking.Answer inClear = ForwardedLogIn.of(root, "203.0.113.1", "http");
    assertThat(inClear.header("Set-Cookie")).isNotEmpty().doesNotContain("Secure");
    assertThat(inClear.header("Strict-Transport-Security")).isEmpty();
  }

  @Test
  void whoAsksTooOftenIsCountedByTheAddressThatTheProxyNames() throws Exception {
    Asking asking = new Asking(root.toString());
    Asking.Answer last = anonymous(asking, "203.0.113.2");
    for (int i = 0; i < 200 && last.status() != 429; i++) {
      last = anonymous(asking, "203.0.113.2");
    }
    assertThat(last.status()).isEqualTo(429);
    assertThat(last.body()).contains("203.0.113.2");
    assertThat(anonymous(asking, "203.0.113.3").status()).isEqualTo(401);
  }

  /** It speaks for many; one address that is no proxy may not have so many. */
  @Test
  void theProxyMayHaveMoreConnectionsThanOneAddress() throws Exception {
    List<Socket> connections = new ArrayList<>();
    try {
      for (int i = 0; i < 300; i++) {
        connections.add(new Socket(root.getHost(), root.getPort()));
      }
      Socket last = connections.get(connections.size() - 1);
      last.setSoTimeout(60_000);
      last.getOutputStream()
          .write(
              "GET /health/live HTTP/1.1\r\nHost: localhost\r\n\r\n"
                  .getBytes(StandardCharsets.US_ASCII));
      assertThat(last.getInputStream().read()).as("the answer begins").isEqualTo('H');
    } finally {
      for (Socket connection : connections) {
        connection.close();
      }
    }
  }

  private static Asking.Answer anonymous(Asking asking, String from) throws Exception {
    return asking.ask("GET", "/api/v1/lots", Map.of("X-Forwarded-For", from), "");
  }
}
