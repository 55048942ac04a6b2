package org.kornspur.api.security.connection;

import static org.assertj.core.api.Assertions.assertThat;

import io.smallrye.config.PropertiesConfigSource;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Passwords do not go in clear beside a port with TLS, unless somebody says so. */
class PlainHttpBesideTlsTest {
  private static final String INSECURE = "quarkus.http.insecure-requests";

  private static Optional<String> insecureRequests(Map<String, String> settings) {
    return new SmallRyeConfigBuilder()
        .addDiscoveredSources()
        .withSources(new PropertiesConfigSource(settings, "test", 250))
        .build()
        .getOptionalValue(INSECURE, String.class);
  }

  @Test
  void plainRequestsAreLedToTlsWhereItIsSetUp() {
    assertThat(insecureRequests(Map.of("quarkus.http.ssl.certificate.files", "cert.pem")))
        .contains("redirect");
    assertThat(insecureRequests(Map.of("quarkus.http.ssl.certificate.key-store-file", "keys.p12")))
        .contains("redirect");
    assertThat(insecureRequests(Map.of("quarkus.http.tls-configuration-name", "outside")))
        .contains("redirect");
  }

  @Test
  void withoutTlsNothingIsChanged() {
    assertThat(insecureRequests(Map.of())).isEmpty();
  }

  @Test
  void whoSaysOtherwiseIsHeeded() {
    assertThat(
            insecureRequests(
                Map.of("quarkus.http.ssl.certificate.files", "cert.pem", INSECURE, "disabled")))
        .contains("disabled");
  }
}
