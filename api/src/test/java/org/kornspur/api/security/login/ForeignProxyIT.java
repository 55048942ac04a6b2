package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.net.URL;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Whoever is not the trusted proxy cannot say from where a request came, nor that it was TLS. */
@QuarkusTest
@TestProfile(BehindProxy.Foreign.class)
class ForeignProxyIT {

  @TestHTTPResource("/")
  URL root;

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
