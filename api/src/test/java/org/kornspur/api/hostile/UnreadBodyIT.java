package org.kornspur.api.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;

/**
 * An answer before the end of the body is the last on its connection, and says so, as RFC 9112,
 * section 9.6, asks: a server that does not intend to read a body closes after its answer and sends
 * the connection option "close".
 */
@ExtendWith(EmptyMachine.class)
class UnreadBodyIT {
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(1);
  private static final int DECLARED_BYTES = 1_000_000;
  private static final int TIMES = 10;

  private final URI root = URI.create(EmptyMachine.root());

  @ParameterizedTest
  @CsvSource({
    "/api/v1/facts, Content-Encoding: gzip, 415, a packed body",
    "/api/v1/facts, Content-Type: none, 415, a type that is none",
    "/api/v1/session, Content-Type: text/plain, 413, a log-in that is too long",
    "/api/v1/facts, Authorization: Basic eDp5, 401, a password that is wrong"
  })
  void theConnectionEndsWithTheAnswer(String path, String header, int status, String what)
      throws IOException {
    boolean ownCredentials = header.startsWith("Authorization");
    String head =
        "POST "
            + path
            + " HTTP/1.1\r\nHost: "
            + root.getAuthority()
            + "\r\n"
            + header
            + "\r\nContent-Length: "
            + DECLARED_BYTES
            + (ownCredentials ? "" : "\r\nAuthorization: " + TestPeople.basic(AsPerson.EVERYTHING))
            + "\r\n\r\n{\"begins\":";
    String answer = answerTo(head);
    assertThat(answer).as(what).startsWith("HTTP/1.1 " + status);
    assertThat(answer.toLowerCase(Locale.ROOT)).as(what).contains("connection: close");
  }

  /**
   * A system that closes with bytes unread ends the connection with a reset. A client that is still
   * sending then sees an error, and does not look for an answer (RFC 9112, section 9.6).
   */
  @Test
  void theAnswerArrivesAtAClientThatIsStillSendingTheBody() throws Exception {
    Asking asking = new Asking(root.toString());
    Map<String, String> headers =
        Map.of(
            "Authorization",
            TestPeople.basic(AsPerson.EVERYTHING),
            "Content-Type",
            "application/json",
            "Content-Encoding",
            "gzip");
    String body = "x".repeat(5 * DECLARED_BYTES);
    for (int i = 0; i < TIMES; i++) {
      assertThat(asking.ask("POST", "/api/v1/facts", headers, body).status()).isEqualTo(415);
    }
  }

  private String answerTo(String head) throws IOException {
    try (Socket socket = new Socket(root.getHost(), root.getPort())) {
      socket.setSoTimeout((int) LONGEST_WAIT.toMillis());
      socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
      socket.getOutputStream().flush();
      return untilTheEnd(socket);
    }
  }

  /** What comes before the other side closes. */
  private static String untilTheEnd(Socket socket) throws IOException {
    ByteArrayOutputStream answer = new ByteArrayOutputStream();
    try {
      socket.getInputStream().transferTo(answer);
    } catch (SocketTimeoutException stillOpen) {
      throw new AssertionError("Still open after: " + answer, stillOpen);
    } catch (SocketException reset) {
      // closed all the same
    }
    return answer.toString(StandardCharsets.UTF_8);
  }
}
