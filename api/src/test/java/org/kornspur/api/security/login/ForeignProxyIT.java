package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.MalformedURLException;
import java.net.URL;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.SharedMachine;

/** Whoever is not the trusted proxy cannot say from where a request came, nor that it was TLS. */
@ExtendWith(ProxyMachine.Foreign.class)
class ForeignProxyIT {

  private URL root;

  @BeforeEach
  void begin() throws MalformedURLException {
    root = new URL(SharedMachine.root());
  }

  @Test
  void whatOthersSayOfARequestIsNotHeeded() throws Exception {
    Asking.Answer claimed = ForwardedLogIn.of(root, "203.0.113.1", "https");
    assertThat(claimed.header("Set-Cookie")).isNotEmpty().doesNotContain("Secure");
    assertThat(claimed.header("Strict-Transport-Security")).isEmpty();

    Asking asking = new Asking(root.toString());
    Asking.Answer last = claimed;
    for (int i = 0; i < 200 && last.status() != 429; i++) {
      last = asking.ask("GET", "/api/v1/lots", Map.of("X-Forwarded-For", "203.0.113." + i), "");
    }
    assertThat(last.status()).as("another address each time does not help").isEqualTo(429);
    assertThat(last.body()).doesNotContain("203.0.113");
  }
}
