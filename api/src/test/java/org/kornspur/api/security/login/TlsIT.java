package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.net.Socket;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.security.cert.X509Certificate;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManager;
import javax.net.ssl.X509TrustManager;
import org.junit.jupiter.api.Test;
import org.kornspur.api.security.people.TestPeople;

/** Where there is TLS, nothing is answered without it; and the limits hold below it. */
@QuarkusTest
@TestProfile(WithTls.class)
class TlsIT {
  private static final int LONGEST_WAIT_MILLIS = 60_000;

  @TestHTTPResource("/")
  URL plain;

  @TestHTTPResource(value = "/", tls = true)
  URL encrypted;

  /** Quarkus takes the port from the settings; here it is any that was free. */
  @Test
  void aPlainRequestIsLedToTlsUnanswered() throws Exception {
    try (Socket socket = new Socket(plain.getHost(), plain.getPort())) {
      assertThat(answer(socket, get(TestPeople.password())))
          .startsWith("HTTP/1.1 301")
          .containsIgnoringCase("location: https://localhost:")
          .doesNotContain("quality");
    }
  }

  @Test
  void aRequestByTlsIsAnswered() throws Exception {
    try (Socket socket = byTls()) {
      assertThat(answer(socket, get(TestPeople.password())))
          .startsWith("HTTP/1.1 200")
          .containsIgnoringCase("Strict-Transport-Security")
          .contains("quality");
    }
  }

  @Test
  void aHandshakeThatIsNotFinishedIsEnded() throws Exception {
    try (Socket socket = new Socket(encrypted.getHost(), encrypted.getPort())) {
      socket.getOutputStream().write(22);
      socket.setSoTimeout(LONGEST_WAIT_MILLIS);
      assertThat(socket.getInputStream().readAllBytes()).isEmpty();
    }
  }

  private static String get(String password) {
    return "GET /api/v1/account HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nAuthorization: "
        + TestPeople.basic("quality", password)
        + "\r\n\r\n";
  }

  private static String answer(Socket socket, String request) throws Exception {
    socket.setSoTimeout(LONGEST_WAIT_MILLIS);
    socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
    return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
  }

  private Socket byTls() throws Exception {
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, new TrustManager[] {new OwnCertificate()}, new SecureRandom());
    return context.getSocketFactory().createSocket(encrypted.getHost(), encrypted.getPort());
  }

  /** The certificate was signed by the server of this test itself. */
  private static final class OwnCertificate implements X509TrustManager {
    @Override
    public void checkClientTrusted(X509Certificate[] chain, String authType) {}

    @Override
    public void checkServerTrusted(X509Certificate[] chain, String authType) {}

    @Override
    public X509Certificate[] getAcceptedIssuers() {
      return new X509Certificate[0];
    }
  }
}
