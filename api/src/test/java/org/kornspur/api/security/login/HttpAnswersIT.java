package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.net.Socket;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logmanager.LogContext;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.api.InProcessProfile;
import org.kornspur.api.security.people.TestPeople;

/** What every answer carries, and what is answered when something is amiss. */
@QuarkusTest
@TestProfile(InProcessProfile.class)
class HttpAnswersIT {
  private static final Duration PATIENCE = Duration.ofSeconds(30);

  @TestHTTPResource("/")
  URL root;

  @ConfigProperty(name = "kornspur.data-folder")
  Path dataFolder;

  private Asking asking;

  @BeforeEach
  void begin() {
    asking = new Asking(root.toString());
  }

  /** RFC 9110, section 11.6.1: a refusal names a way in. Browsers know Basic and ask for it. */
  @Test
  void onlyWhatIsNoBrowserIsAskedForBasic() throws Exception {
    Map<String, String> script = Map.of("User-Agent", "curl/8", "Accept", "application/json");
    assertThat(asking.ask("GET", "/api/v1/lots", script, "").header("WWW-Authenticate"))
        .startsWith("Basic ");
    Map<String, String> page = Map.of("User-Agent", "Mozilla/5.0", "Accept", "application/json");
    Asking.Answer answer = asking.ask("GET", "/api/v1/lots", page, "");
    assertThat(answer.status()).isEqualTo(401);
    assertThat(answer.header("WWW-Authenticate")).startsWith("Session ");
  }

  @Test
  void noAnswerOfTheInterfaceIsKeptOnTheWay() throws Exception {
    for (String path : new String[] {"/api/v1/lots", "/api/v1/account", "/api/v1/nothing-here"}) {
      assertThat(asking.get("quality", path).header("Cache-Control"))
          .as(path)
          .isEqualTo("no-store");
    }
  }

  @Test
  void methodsThatNoAddressTakesAreRefused() throws Exception {
    for (String method : new String[] {"TRACE", "PROPFIND", "INVENTED"}) {
      for (String path : new String[] {"/api/v1/lots", "/login", "/health/live", "/"}) {
        String answer =
            answer(
                method
                    + " "
                    + path
                    + " HTTP/1.1\r\nHost: localhost\r\nCookie: a=secret\r\nConnection: close\r\n"
                    + "Authorization: "
                    + TestPeople.basic("quality")
                    + "\r\n\r\n");
        assertThat(answer)
            .as(method + " " + path)
            .startsWith("HTTP/1.1 405")
            .containsIgnoringCase("allow: DELETE, GET")
            .doesNotContain("a=secret");
      }
    }
  }

  @Test
  void aBrokenPeopleFileIsToldAndTheLogSaysWhichLine() throws Exception {
    Path file = dataFolder.resolve("people.json");
    byte[] good = Files.readAllBytes(file);
    Logged logged = new Logged();
    try {
      Files.writeString(file, "[ {\n  \"personId\" : \"quality\",\n  oops\n} ]");
      Asking.Answer bySession =
          asking.ask(
              "POST",
              RoutePolicy.SESSION,
              Map.of("Content-Type", "application/json"),
              "{\"personId\": \"quality\", \"password\": \"any\"}");
      Asking.Answer byPassword =
          asking.ask(
              "GET",
              "/api/v1/account",
              Map.of("Authorization", TestPeople.basic("quality", "any")),
              "");
      for (Asking.Answer answer : new Asking.Answer[] {bySession, byPassword}) {
        assertThat(answer.status()).as(answer.body()).isEqualTo(503);
        assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
        assertThat(answer.body()).contains("The people file of this server cannot be read");
      }
      until(() -> asking.ask("GET", "/health/ready", Map.of(), "").body().contains("people file"));
      until(
          () ->
              asking
                  .ask("GET", "/health/ready", Map.of(), "")
                  .body()
                  .replaceAll("\\s", "")
                  .contains("\"peoplefile\",\"status\":\"DOWN\""));
    } finally {
      Files.write(file, good);
      logged.close();
    }
    assertThat(logged.text()).contains(file.toString(), "line 3, column");
    until(() -> asking.get("quality", "/api/v1/account").status() == 200);
  }

  @Test
  void aSenderWhoGoesAwayIsNoIncident() throws Exception {
    Logger access = LogContext.getLogContext().getLogger("org.kornspur.api.security");
    Level before = access.getLevel();
    access.setLevel(Level.FINE);
    Logged logged = new Logged();
    try {
      try (Socket socket = new Socket(root.getHost(), root.getPort())) {
        String request =
            "POST /api/v1/facts HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
                + "Authorization: "
                + TestPeople.basic("quality")
                + "\r\nContent-Length: 1000\r\nExpect: 100-continue\r\n\r\n";
        socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
        assertThat(socket.getInputStream().read()).as("of 100 Continue").isEqualTo('H');
        socket.getOutputStream().write('{');
      }
      until(
          () ->
              logged.text().contains("The sender of a body went away")
                  || logged.text().contains("Incident"));
    } finally {
      logged.close();
      access.setLevel(before);
    }
    assertThat(logged.text()).doesNotContain("Incident");
  }

  @Test
  void wrongPasswordsAreSlowedAndNothingSecretIsLogged() throws Exception {
    Asking.Answer added =
        asking.post(
            "administrator",
            "/api/v1/people",
            "{\"personId\": \"p-18\", \"printedName\": \"Invented Eighteen\", \"roles\": [\"AUDITOR\"]}");
    String right = "a password of one's own, for tests";
    assertThat(
            asking.setPassword(
                "p-18", new ObjectMapper().readTree(added.body()).path("password").asText(), right))
        .isEqualTo(204);
    String wrong = "a wrong guess that no log may hold";
    Logged logged = new Logged();
    String cookie;
    try {
      assertThat(asking.account("p-18", right)).isEqualTo(200);
      cookie = asking.logIn("p-18", right, Map.of()).header("Set-Cookie").split(";", 2)[0];
      assertThat(asking.account(wrong, wrong)).as("a password in the wrong field").isEqualTo(401);
      for (int i = 0; i < 5; i++) {
        assertThat(asking.account("p-18", wrong)).isEqualTo(401);
      }
      Asking.Answer slowed = asking.logIn("p-18", wrong, Map.of());
      assertThat(slowed.status()).isEqualTo(429);
      assertThat(Integer.parseInt(slowed.header("Retry-After"))).isBetween(1, 300);
      assertThat(slowed.header("Content-Type")).isEqualTo("application/problem+json");
      assertThat(asking.account("p-18", right)).as("what is remembered still holds").isEqualTo(200);
    } finally {
      logged.close();
    }
    assertThat(logged.text())
        .contains("Log-in refused for p-18", "Log-in refused for nobody known");
    for (String secret :
        List.of(
            right,
            wrong,
            cookie.substring(cookie.indexOf('=') + 1),
            TestPeople.basic("p-18", right).substring(6),
            TestPeople.basic("p-18", wrong).substring(6))) {
      assertThat(logged.text()).doesNotContain(secret);
    }
  }

  private String answer(String request) throws Exception {
    try (Socket socket = new Socket(root.getHost(), root.getPort())) {
      socket.setSoTimeout((int) PATIENCE.toMillis());
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
