package org.kornspur.api.security.login;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.kornspur.api.OneMachine;

/**
 * One machine with a port for TLS beside the plain one, and a certificate that it signed itself.
 */
public final class WithTls implements QuarkusTestProfile {
  private static final String PASSWORD = "invented for tests";

  @Override
  public Map<String, String> getConfigOverrides() {
    Map<String, String> settings = new HashMap<>(new OneMachine().getConfigOverrides());
    settings.put("quarkus.http.ssl.certificate.key-store-file", keyStore().toString());
    settings.put("quarkus.http.ssl.certificate.key-store-password", PASSWORD);
    settings.put("quarkus.http.test-ssl-port", "0");
    return settings;
  }

  private static Path keyStore() {
    try {
      Path file = Files.createTempDirectory("kornspur-tls").resolve("keys.p12");
      Process keytool =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
                  "-genkeypair",
                  "-keyalg",
                  "EC",
                  "-dname",
                  "CN=localhost",
                  "-ext",
                  "san=dns:localhost,ip:127.0.0.1",
                  "-storetype",
                  "PKCS12",
                  "-keystore",
                  file.toString(),
                  "-storepass",
                  PASSWORD)
              .inheritIO()
              .start();
      if (keytool.waitFor() != 0) {
        throw new IllegalStateException("keytool made no certificate");
      }
      return file;
    } catch (IOException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
