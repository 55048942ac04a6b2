package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.Waiting;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;

/**
 * The packaged application leaves in order. Source: Kubernetes, Pod Lifecycle, Termination of Pods:
 * the signal is SIGTERM, and requests may still come until the endpoint is known to be not ready.
 */
class DrainIT {
  private static final String OPEN = "/api/v1/fact-types";
  private static final String WAITS = "Waiting for HTTP requests to complete";

  @Test
  @Timeout(600)
  void shouldEndWhatRunsFirst(@TempDir Path folder) throws Exception {
    try (OneMachine machine = new OneMachine(folder).with("QUARKUS_SHUTDOWN_DELAY", "5s")) {
      machine.start();
      machine.awaitReady();
      try (Socket live = request(machine, "GET", "/api/v1/changes", "");
          Socket running =
              request(
                  machine,
                  "POST",
                  "/api/v1/facts",
                  InventedFacts.lot("on-leaving", "ON-LEAVING", "SX", 500))) {
        BufferedReader stream = answer(live);
        assertThat(stream.readLine()).isEqualTo("HTTP/1.1 200 OK");
        machine.askToEnd();

        Waiting.until(() -> status(machine, "/health/ready") == 503);
        assertThat(status(machine, "/health/live")).isEqualTo(200);
        assertThat(status(machine, OPEN)).as("a request that comes meanwhile").isEqualTo(200);
        // the last chunk is one of none (RFC 9112, section 7.1)
        assertThat(stream.lines().anyMatch("0"::equals)).as("the live stream ends").isTrue();
        Waiting.until(() -> machine.logged(WAITS) > 0);
        try (Socket late = request(machine, "GET", OPEN, "")) {
          assertThat(answer(late).lines().takeWhile(line -> !line.isEmpty()))
              .as("whoever comes later is let go")
              .contains("HTTP/1.1 200 OK", "connection: close");
        }

        running.getOutputStream().write('}');
        running.getOutputStream().flush();
        assertThat(answer(running).readLine()).isEqualTo("HTTP/1.1 202 Accepted");
      }
      assertThat(machine.exitCode()).isZero();
      machine.start();
      machine.awaitReady();
      Waiting.until(() -> status(machine, "/api/v1/lots/ON-LEAVING") == 200);
    }
  }

  /** Sends a request of which the last letter of the body is missing. */
  private static Socket request(OneMachine machine, String method, String path, String body)
      throws IOException {
    Socket socket = new Socket("127.0.0.1", machine.port());
    String head =
        "%s %s HTTP/1.1\r\nHost: localhost\r\nAuthorization: %s\r\n"
            .formatted(method, path, TestPeople.basic(TestPeople.of(Role.QUALITY)));
    OutputStream out = socket.getOutputStream();
    out.write(head.getBytes(StandardCharsets.UTF_8));
    if (!body.isEmpty()) {
      byte[] bytes = body.strip().getBytes(StandardCharsets.UTF_8);
      out.write(
          "Content-Type: application/json\r\nContent-Length: %d\r\n\r\n"
              .formatted(bytes.length)
              .getBytes(StandardCharsets.UTF_8));
      out.write(bytes, 0, bytes.length - 1);
    } else {
      out.write("\r\n".getBytes(StandardCharsets.UTF_8));
    }
    out.flush();
    return socket;
  }

  private static BufferedReader answer(Socket socket) throws IOException {
    return new BufferedReader(
        new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
  }

  private static int status(OneMachine machine, String path) throws Exception {
    return machine.site().get(path).status();
  }
}
