package org.kornspur.api;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;

/** A key of a server on this machine with a certificate that it signed itself, as PKCS 12. */
public final class SelfSignedKeys {
  public static final String PASSWORD = "invented for tests";

  private SelfSignedKeys() {}

  /** Makes a key in a folder; its file serves those who are to trust it too. */
  public static Path in(Path folder) throws IOException {
    Path file = folder.resolve("keys.p12");
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
    try {
      if (keytool.waitFor() != 0) {
        throw new IOException("keytool made no certificate");
      }
    } catch (InterruptedException ended) {
      Thread.currentThread().interrupt();
      throw new IOException(ended);
    }
    return file;
  }

  /** What a server needs that shows the certificate of a file. */
  public static SSLContext server(Path file) throws IOException, GeneralSecurityException {
    KeyStore keys = KeyStore.getInstance("PKCS12");
    try (InputStream in = Files.newInputStream(file)) {
      keys.load(in, PASSWORD.toCharArray());
    }
    KeyManagerFactory managers =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    managers.init(keys, PASSWORD.toCharArray());
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(managers.getKeyManagers(), null, null);
    return context;
  }
}
