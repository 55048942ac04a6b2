package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.security.people.TestPeople;

/** Logging in with a cookie, what protects it, and what happens to people who come and go. */
@ExtendWith(EmptyMachine.class)
class LogInIT {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String COMPARE = "/api/v1/advice/compare";
  private static final String QUESTION =
      "{\"kind\": \"GERMINATION\", \"stated\": 90, \"found\": 84, \"foundSeeds\": 400}";

  private Asking asking;
  private String origin;

  @BeforeEach
  void begin() {
    asking = new Asking(EmptyMachine.root());
    origin = EmptyMachine.root().replaceAll("/$", "");
  }

  private record Session(String cookie, String token) {}

  private Session logIn(String person) throws Exception {
    Asking.Answer answer = asking.logIn(person, TestPeople.password(), Map.of());
    assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    assertThat(answer.header("Set-Cookie"))
        .startsWith(Sessions.COOKIE + "=")
        .contains("HttpOnly", "SameSite=Strict", "Path=/")
        .doesNotContain(person, TestPeople.password());
    String cookie = answer.header("Set-Cookie").split(";", 2)[0];
    return new Session(cookie, JSON.readTree(answer.body()).path("csrfToken").asText());
  }

  private Asking.Answer compare(Map<String, String> headers) throws Exception {
    Map<String, String> all = new HashMap<>(headers);
    all.put("Content-Type", "application/json");
    return asking.ask("POST", COMPARE, all, QUESTION);
  }

  @Test
  void aCookieProvesWhoAsksAndEndsWithTheLogOut() throws Exception {
    Session session = logIn("inspector");
    Map<String, String> withCookie = Map.of("Cookie", session.cookie());
    JsonNode account = JSON.readTree(asking.ask("GET", "/api/v1/account", withCookie, "").body());
    assertThat(account.path("personId").asText()).isEqualTo("inspector");
    assertThat(account.path("roles").get(0).asText()).isEqualTo("INSPECTOR");

    Map<String, String> logOut = new HashMap<>(withCookie);
    logOut.put(FormTokens.HEADER, session.token());
    logOut.put("Origin", origin);
    assertThat(asking.ask("DELETE", RoutePolicy.SESSION, logOut, "").status()).isEqualTo(204);
    assertThat(asking.ask("GET", "/api/v1/account", withCookie, "").status()).isEqualTo(401);
  }

  @Test
  void anAlteredCookieProvesNothing() throws Exception {
    String cookie = logIn("auditor").cookie();
    for (int at = cookie.indexOf('=') + 1; at < cookie.length(); at += 7) {
      char other = cookie.charAt(at) == 'A' ? 'B' : 'A';
      String altered = cookie.substring(0, at) + other + cookie.substring(at + 1);
      assertThat(asking.ask("GET", "/api/v1/account", Map.of("Cookie", altered), "").status())
          .as("character " + at)
          .isEqualTo(401);
    }
  }

  /** Model: the cross-site request forgery prevention cheat sheet of OWASP, from memory. */
  @Test
  void aChangeWithTheCookieNeedsTheTokenAndThisSitesOwnPage() throws Exception {
    Session session = logIn("quality");
    Map<String, String> good =
        Map.of("Cookie", session.cookie(), FormTokens.HEADER, session.token(), "Origin", origin);
    assertThat(compare(good).status()).isEqualTo(200);
    assertThat(compare(with(good, "Sec-Fetch-Site", "same-origin")).status()).isEqualTo(200);

    assertForged(compare(without(good, FormTokens.HEADER)));
    assertForged(compare(with(good, FormTokens.HEADER, session.token() + "x")));
    assertForged(compare(with(good, FormTokens.HEADER, logIn("auditor").token())));
    assertForged(compare(without(good, "Origin")));
    assertForged(compare(with(good, "Origin", "http://evil.example")));
    assertForged(compare(with(good, "Origin", "null")));
    assertForged(compare(with(good, "Sec-Fetch-Site", "cross-site")));
    assertForged(compare(with(good, "Sec-Fetch-Site", "same-site")));
  }

  @Test
  void aFormMayCarryTheTokenAsAField() throws Exception {
    Session session = logIn("quality");
    Map<String, String> headers =
        Map.of(
            "Cookie",
            session.cookie(),
            "Origin",
            origin,
            "Content-Type",
            "application/x-www-form-urlencoded");
    String token = URLEncoder.encode(session.token(), StandardCharsets.UTF_8);
    assertForged(asking.ask("POST", RoutePolicy.SESSION + "/end", headers, "a=b&csrfToken=wrong"));
    Asking.Answer ended =
        asking.ask("POST", RoutePolicy.SESSION + "/end", headers, "a=b&csrfToken=" + token);
    assertThat(ended.status()).isEqualTo(303);
  }

  /** A browser adds a password that it keeps for the site to requests of foreign pages too. */
  @Test
  void aForeignPageCannotUseThePasswordThatABrowserKeeps() throws Exception {
    Map<String, String> script = Map.of("Authorization", TestPeople.basic("quality"));
    assertThat(compare(script).status()).isEqualTo(200);
    assertForged(compare(with(script, "Origin", "http://evil.example")));
    assertForged(compare(with(script, "Sec-Fetch-Site", "cross-site")));
    assertThat(
            asking
                .logIn("quality", TestPeople.password(), Map.of("Origin", "http://evil.example"))
                .status())
        .isEqualTo(403);
  }

  @Test
  void afterTheFormTheBrowserStaysOnThisSite() throws Exception {
    for (String next : List.of("//evil.example", "https://evil.example", "/\\evil.example", "")) {
      String form =
          "personId=quality&password="
              + URLEncoder.encode(TestPeople.password(), StandardCharsets.UTF_8)
              + "&next="
              + URLEncoder.encode(next, StandardCharsets.UTF_8);
      Asking.Answer answer =
          asking.ask(
              "POST",
              RoutePolicy.SESSION,
              Map.of("Content-Type", "application/x-www-form-urlencoded"),
              form);
      assertThat(answer.status()).isEqualTo(303);
      assertThat(answer.header("Location")).as(next).isEqualTo(origin + "/");
    }
    Asking.Answer led =
        asking.ask("GET", "/api/v1/lots?state=FIT", Map.of("Accept", "text/html"), "");
    assertThat(led.status()).isEqualTo(303);
    assertThat(led.header("Location")).isEqualTo("/login?next=%2Fapi%2Fv1%2Flots%3Fstate%3DFIT");
  }

  /** Whoever sends it, it is read before that is known. */
  @Test
  void aLogInIsReadNoFurtherThanOneCanBeLong() throws Exception {
    String tooLong = "x".repeat(5_000);
    assertTooLarge(asking.logIn("auditor", tooLong, Map.of()));
    assertTooLarge(
        asking.ask(
            "POST",
            RoutePolicy.SESSION,
            Map.of("Content-Type", "application/x-www-form-urlencoded"),
            "personId=auditor&password=" + tooLong));
  }

  private static void assertTooLarge(Asking.Answer answer) {
    assertThat(answer.status()).as(answer.body()).isEqualTo(413);
    assertThat(answer.body())
        .contains("at most 4,096 bytes", "send the person and the password alone");
  }

  @Test
  void peopleComeAndGo() throws Exception {
    String administrator = "administrator";
    Asking.Answer added =
        asking.post(
            administrator,
            "/api/v1/people",
            "{\"personId\": \"p-17\", \"printedName\": \"Invented Seventeen\", \"roles\": [\"auditor\"]}");
    assertThat(added.status()).as(added.body()).isEqualTo(201);
    assertThat(added.header("Cache-Control")).isEqualTo("no-store");
    String password = JSON.readTree(added.body()).path("password").asText();
    assertThat(password).hasSizeGreaterThan(20);
    assertThat(asking.get(administrator, "/api/v1/people/p-17").body()).doesNotContain(password);
    assertThat(asking.account("p-17", password)).as("issued").isEqualTo(403);
    assertThat(
            asking
                .post(
                    administrator,
                    "/api/v1/people",
                    "{\"personId\": \"p-17\", \"printedName\": \"Another\", \"roles\": [\"QUALITY\"]}")
                .status())
        .isEqualTo(409);

    asking.post(administrator, "/api/v1/people/p-17/disable", "");
    assertThat(asking.account("p-17", password)).as("disabled, at once").isEqualTo(401);
    asking.post(administrator, "/api/v1/people/p-17/enable", "");
    assertThat(asking.account("p-17", password)).isEqualTo(403);

    String renewed =
        JSON.readTree(asking.post(administrator, "/api/v1/people/p-17/password", "").body())
            .path("password")
            .asText();
    assertThat(asking.account("p-17", password)).as("the old password, at once").isEqualTo(401);
    assertThat(asking.account("p-17", renewed)).isEqualTo(403);

    String own = "a password of my own";
    assertThat(asking.setPassword("p-17", renewed, own)).isEqualTo(204);
    assertThat(asking.account("p-17", own)).isEqualTo(200);

    Asking.Answer told = asking.get("auditor", "/api/v1/people-journal?person=p-17");
    JsonNode journal = JSON.readTree(told.body());
    assertThat(journal.path("isWhole").asBoolean()).as(told.body()).isTrue();
    assertThat(journal.path("items").findValuesAsText("what"))
        .containsExactly(
            "PASSWORD", "PASSWORD", "DISABLED", "DISABLED", "CONFIRMATION", "ROLES", "ADDED");
    assertThat(journal.path("items").findValuesAsText("by"))
        .containsExactly(
            "p-17",
            administrator,
            administrator,
            administrator,
            administrator,
            administrator,
            administrator);
    assertThat(told.body()).doesNotContain("Seventeen", password, renewed, own);
  }

  @Test
  void theLastAdministratorStays() throws Exception {
    asking.post("administrator", "/api/v1/people/everything/disable", "");
    Asking.Answer last = asking.post("administrator", "/api/v1/people/administrator/disable", "");
    asking.post("administrator", "/api/v1/people/everything/enable", "");
    assertThat(last.status()).isEqualTo(409);
    assertThat(last.body()).contains("Make another person administrator first");
  }

  @Test
  void manyFirstRequestsAtOnceWithTheRightPasswordAreAllAnswered() throws Exception {
    Asking.Answer added =
        asking.post(
            "administrator",
            "/api/v1/people",
            "{\"personId\": \"p-25\", \"printedName\": \"Invented\", \"roles\": [\"AUDITOR\"]}");
    String own = "a password that many requests bring";
    assertThat(
            asking.setPassword("p-25", JSON.readTree(added.body()).path("password").asText(), own))
        .isEqualTo(204);
    ExecutorService threads = Executors.newFixedThreadPool(25);
    try {
      List<Future<Integer>> answers =
          threads.invokeAll(Collections.nCopies(25, () -> asking.account("p-25", own)));
      for (Future<Integer> answer : answers) {
        assertThat(answer.get()).isEqualTo(200);
      }
    } finally {
      threads.shutdownNow();
    }
  }

  private static void assertForged(Asking.Answer answer) {
    assertThat(answer.status()).isEqualTo(403);
    assertThat(answer.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(answer.body()).contains("/problems/forged-request");
  }

  private static Map<String, String> with(Map<String, String> all, String name, String value) {
    Map<String, String> changed = new HashMap<>(all);
    changed.put(name, value);
    return changed;
  }

  private static Map<String, String> without(Map<String, String> all, String name) {
    Map<String, String> changed = new HashMap<>(all);
    changed.remove(name);
    return changed;
  }
}
