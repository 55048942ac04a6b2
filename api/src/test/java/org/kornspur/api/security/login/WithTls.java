package org.kornspur.api.security.login;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.kornspur.api.InProcessProfile;
import org.kornspur.api.TestCertificate;

/**
 * One machine with a port for TLS beside the plain one, and a certificate that it signed itself.
 */
public final class WithTls implements QuarkusTestProfile {
  @Override
  public Map<String, String> getConfigOverrides() {
    Map<String, String> settings = new HashMap<>(new InProcessProfile().getConfigOverrides());
    settings.put("quarkus.http.ssl.certificate.key-store-file", keyStore().toString());
    settings.put("quarkus.http.ssl.certificate.key-store-password", TestCertificate.PASSWORD);
    settings.put("quarkus.http.test-ssl-port", "0");
    return settings;
  }

  private static Path keyStore() {
    try {
      return TestCertificate.in(Files.createTempDirectory("kornspur-tls")).keyStore();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
