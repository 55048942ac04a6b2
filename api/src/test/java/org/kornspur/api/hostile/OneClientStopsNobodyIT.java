package org.kornspur.api.hostile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import io.quarkus.arc.Arc;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.api.InProcessProfile;
import org.kornspur.api.security.people.TestPeople;

/**
 * Whoever begins requests and never ends them does not keep others from being answered. The
 * attackers speak from loopback addresses of their own; others ask from another, from which no
 * other test has connections.
 */
@QuarkusTest
@TestProfile(InProcessProfile.class)
class OneClientStopsNobodyIT {
  private static final int MORE_THAN_WORKERS = 260;
  private static final int MORE_THAN_CONNECTIONS = 2_100;
  private static final int MOST_OF_ONE_ADDRESS = 250;
  private static final String OTHERS = "127.0.2.1";

  /** Less than after what an attacker is ended. */
  private static final int PATIENCE_MILLIS = 9_000;

  private static final int LONGEST_WAIT_MILLIS = 60_000;

  @TestHTTPResource("/")
  URL root;

  private final List<Socket> attackers = new ArrayList<>();

  /** Hashing a password takes its time on a busy machine; afterwards it is remembered. */
  @BeforeEach
  void logIn() throws IOException {
    assertThat(answer(OTHERS, get("/api/v1/account"), LONGEST_WAIT_MILLIS))
        .startsWith("HTTP/1.1 200");
  }

  @AfterEach
  void letGo() throws IOException {
    for (Socket attacker : attackers) {
      attacker.close();
    }
  }

  @Test
  void logInsWhoseBodyNeverEndsHoldNobodyAndAreEnded() throws IOException {
    String head = post("/api/v1/session", "");
    attack(MORE_THAN_WORKERS / 2, "127.0.0.2", head);
    attack(MORE_THAN_WORKERS / 2, "127.0.0.3", head);
    assertOthersAreAnswered();
    for (Socket attacker : attackers) {
      attacker.setSoTimeout(LONGEST_WAIT_MILLIS);
      assertThat(all(attacker))
          .startsWith("HTTP/1.1 408")
          .contains("The input is 12 bytes and no end; expected whole within 10 s.");
    }
  }

  @Test
  void bodiesOfSomebodyLoggedInThatNeverEndHoldNobody() throws IOException {
    String head = post("/api/v1/facts", "Authorization: " + TestPeople.basic("quality") + "\r\n");
    attack(MORE_THAN_WORKERS / 2, "127.0.0.2", head);
    attack(MORE_THAN_WORKERS / 2, "127.0.0.3", head);
    assertOthersAreAnswered();
  }

  @Test
  void headsThatAreNeverWholeShutNobodyElseOut() throws IOException {
    attack(MORE_THAN_CONNECTIONS, "127.0.0.2", "GET / HTTP/1.1\r\nHost:");
    assertOthersAreAnswered();
    assertThat(attackers.stream().filter(OneClientStopsNobodyIT::isOpen).count())
        .isBetween(1L, (long) MOST_OF_ONE_ADDRESS);
  }

  @Test
  void headsFromManyAddressesLeaveRoomForThoseWhoHaveFewConnections() throws IOException {
    for (int i = 0; i < MORE_THAN_CONNECTIONS / 150; i++) {
      attack(150, "127.0.1." + (i + 1), "GET / HTTP/1.1\r\nHost:");
    }
    assertOthersAreAnswered();
  }

  @Test
  @SuppressWarnings("FutureReturnValueIgnored")
  void aHeadThatComesByteAfterByteIsEnded() throws Exception {
    Socket drip = attacker("127.0.0.2");
    drip.setSoTimeout(LONGEST_WAIT_MILLIS);
    send(drip, "GET / HTTP/1.1\r\nX-Long: ");
    ScheduledExecutorService each = Executors.newSingleThreadScheduledExecutor();
    try {
      each.scheduleAtFixedRate(() -> sendWhileOpen(drip, "x"), 1, 1, TimeUnit.SECONDS);
      assertThat(all(drip)).isEmpty();
    } finally {
      each.shutdownNow();
    }
  }

  @Test
  void healthAnswersWhileEveryWorkerIsBusy() throws Exception {
    ExecutorService workers = Arc.container().getExecutorService();
    CountDownLatch release = new CountDownLatch(1);
    try {
      for (int i = 0; i < MORE_THAN_WORKERS; i++) {
        workers.execute(() -> assertThatCode(release::await).doesNotThrowAnyException());
      }
      assertThat(answer(OTHERS, get("/health/live"))).startsWith("HTTP/1.1 200");
      assertThat(answer(OTHERS, get("/health/ready"))).startsWith("HTTP/1.1 ");
    } finally {
      release.countDown();
    }
  }

  private void assertOthersAreAnswered() throws IOException {
    assertThat(answer(OTHERS, get("/health/live"))).startsWith("HTTP/1.1 200");
    assertThat(answer(OTHERS, get("/api/v1/account"))).startsWith("HTTP/1.1 200");
  }

  private static String get(String path) {
    return "GET "
        + path
        + " HTTP/1.1\r\nHost: localhost\r\nAuthorization: "
        + TestPeople.basic("quality")
        + "\r\n\r\n";
  }

  private static String post(String path, String header) {
    return "POST "
        + path
        + " HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
        + header
        + "Content-Length: 1000\r\n\r\n{\"personId\":";
  }

  private void attack(int times, String from, String begin) throws IOException {
    for (int i = 0; i < times; i++) {
      sendWhileOpen(attacker(from), begin);
    }
  }

  private Socket attacker(String from) throws IOException {
    Socket socket =
        new Socket(InetAddress.getByName(root.getHost()), root.getPort(), from(from), 0);
    attackers.add(socket);
    return socket;
  }

  private static InetAddress from(String address) throws IOException {
    return InetAddress.getByName(address);
  }

  private String answer(String from, String request) throws IOException {
    return answer(from, request, PATIENCE_MILLIS);
  }

  private String answer(String from, String request, int patienceMillis) throws IOException {
    try (Socket socket = new Socket()) {
      socket.bind(new InetSocketAddress(from, 0));
      socket.connect(new InetSocketAddress(root.getHost(), root.getPort()), patienceMillis);
      socket.setSoTimeout(patienceMillis);
      send(socket, request);
      return line(socket);
    }
  }

  private static void send(Socket socket, String text) throws IOException {
    socket.getOutputStream().write(text.getBytes(StandardCharsets.US_ASCII));
    socket.getOutputStream().flush();
  }

  private static void sendWhileOpen(Socket socket, String text) {
    try {
      send(socket, text);
    } catch (IOException closed) {
      // seen by who reads
    }
  }

  /** Nothing where the connection is closed. */
  private static String line(Socket socket) throws IOException {
    StringBuilder line = new StringBuilder();
    for (int read = socket.getInputStream().read();
        read >= 0 && read != '\n';
        read = socket.getInputStream().read()) {
      line.append((char) read);
    }
    return line.toString();
  }

  private static String all(Socket socket) throws IOException {
    try {
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    } catch (SocketException reset) {
      return "";
    }
  }

  private static boolean isOpen(Socket socket) {
    try {
      socket.setSoTimeout(1);
      return socket.getInputStream().read() >= 0;
    } catch (SocketTimeoutException nothingYet) {
      return true;
    } catch (IOException reset) {
      return false;
    }
  }
}
