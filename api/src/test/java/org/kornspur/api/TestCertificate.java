package org.kornspur.api;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.util.Base64;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;

/**
 * A certificate of this machine, which signed itself.
 *
 * @param keyStore key and certificate, PKCS12
 * @param pem the certificate alone
 */
public record TestCertificate(Path keyStore, Path pem) {
  public static final String PASSWORD = "invented for tests";

  public static TestCertificate in(Path folder) {
    try {
      Path keys = folder.resolve("keys.p12");
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
                  keys.toString(),
                  "-storepass",
                  PASSWORD)
              .inheritIO()
              .start();
      if (keytool.waitFor() != 0) {
        throw new IllegalStateException("keytool made no certificate");
      }
      return new TestCertificate(keys, Files.writeString(folder.resolve("broker.pem"), pem(keys)));
    } catch (IOException | GeneralSecurityException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** What a server needs that shows it. */
  public SSLContext server() throws IOException, GeneralSecurityException {
    KeyStore keys = KeyStore.getInstance(keyStore.toFile(), PASSWORD.toCharArray());
    KeyManagerFactory managers =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    managers.init(keys, PASSWORD.toCharArray());
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(managers.getKeyManagers(), null, null);
    return context;
  }

  private static String pem(Path keys) throws IOException, GeneralSecurityException {
    KeyStore store = KeyStore.getInstance(keys.toFile(), PASSWORD.toCharArray());
    Certificate certificate = store.getCertificate(store.aliases().nextElement());
    return "-----BEGIN CERTIFICATE-----\n"
        + Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(certificate.getEncoded())
        + "\n-----END CERTIFICATE-----\n";
  }
}
