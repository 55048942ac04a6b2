package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.HttpServer;
import io.quarkus.bootstrap.logging.InitialConfigurator;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URL;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.logging.Filter;
import java.util.logging.Handler;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.api.Waiting;
import org.kornspur.api.command.act.InventedFitLot;

/** Bearer tokens of a real issuer, Keycloak, which the test starts. */
@QuarkusTest
@TestProfile(WithTokens.class)
class TokensIT {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Pattern AGE = Pattern.compile("of a log-in ([0-9]+) s ago");
  private static final int ASKED_TOGETHER = 20;

  @TestHTTPResource("/")
  URL root;

  @ConfigProperty(name = "kornspur.oidc.issuer")
  String issuer;

  private Asking asking;

  @BeforeEach
  void begin() {
    asking = new Asking(root.toString());
  }

  @Test
  void theClaimsOfATokenSayWhoAsksInWhichRolesAndForWhom() throws Exception {
    JsonNode grower = JSON.readTree(account(token("grower")).body());
    assertThat(grower.path("personId").asText()).isEqualTo("grower");
    assertThat(grower.path("printedName").asText()).isEqualTo("Invented Grower");
    assertThat(grower.path("roles").toString()).isEqualTo("[\"MULTIPLIER\"]");
    assertThat(grower.path("enterpriseId").asText()).isEqualTo("ENT-MULT-WEST");
  }

  @Test
  void whatARoleMayDoFollowsFromTheToken() throws Exception {
    assertThat(status("quality", "POST", "/api/v1/facts")).isEqualTo(422);
    assertThat(status("auditor", "POST", "/api/v1/facts")).isEqualTo(403);
    assertThat(status("administrator", "GET", "/metrics")).isEqualTo(200);
    assertThat(status("auditor", "GET", "/metrics")).isEqualTo(403);
    assertThat(status("administrator", "GET", "/api/v1/lots")).isEqualTo(403);
    assertThat(status("nobody", "GET", "/api/v1/lots")).as("a token without a role").isEqualTo(403);
    assertThat(status("administrator", "GET", "/api/v1/people")).as("kept there").isEqualTo(409);
  }

  @Test
  void aTokenForAnotherProgramIsRefused() throws Exception {
    assertRefused(new IssuerLogIn(issuer).byPassword("another", "quality").access());
  }

  @Test
  void aTokenOfAnotherIssuerIsRefused() throws Exception {
    String elsewhere = issuer.replace("/kornspur", "/elsewhere");
    assertRefused(new IssuerLogIn(elsewhere).byPassword("kornspur", "quality").access());
  }

  /** CVE-2015-9235 is the model: a token that says that it needs no signature. */
  @Test
  void aTokenWithoutASignatureIsRefused() throws Exception {
    String[] parts = token("quality").split("\\.", -1);
    String none = base64("{\"alg\":\"none\",\"typ\":\"JWT\"}");
    assertRefused(none + "." + parts[1] + ".");
    assertRefused(none + "." + parts[1] + "." + parts[2]);
    assertRefused(parts[0] + "." + parts[1] + ".");
  }

  @Test
  void anAlteredTokenIsRefused() throws Exception {
    String[] parts = token("auditor").split("\\.", -1);
    String claims = new String(Base64.getUrlDecoder().decode(parts[1]), StandardCharsets.UTF_8);
    assertThat(claims).contains("\"auditor\"");
    String raised = base64(claims.replace("\"auditor\"", "\"quality\""));
    assertRefused(parts[0] + "." + raised + "." + parts[2]);
    assertRefused("not.a.token");
    assertRefused("x");
  }

  @Test
  void aTokenWhoseTimeIsOverIsRefusedWhenItComesAgain() throws Exception {
    assertThat(account(token("quality")).status()).as("the keys are loaded").isEqualTo(200);
    String token = new IssuerLogIn(issuer).byPassword("short-lived", "grower").access();
    Asking.Answer answer = account(token);
    assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    for (long end = end(); answer.status() == 200 && System.nanoTime() < end; ) {
      Thread.sleep(1_000);
      answer = account(token);
    }
    assertRefused(token);
  }

  /** The library logs what it refuses, some of it in warnings; searched at every level. */
  @Test
  void noTokenIsLogged() throws Exception {
    String good = token("quality");
    String[] parts = good.split("\\.", -1);
    String unsigned = base64("{\"alg\":\"none\",\"typ\":\"JWT\"}") + "." + parts[1] + ".";
    String elsewhere = issuer.replace("/kornspur", "/elsewhere");
    String foreign = new IssuerLogIn(elsewhere).byPassword("kornspur", "quality").access();
    Logged logged = new Logged();
    logged.setFilter(consoleFilter());
    try {
      assertThat(account(good).status()).isEqualTo(200);
      for (String refused :
          List.of(
              unsigned,
              foreign,
              new IssuerLogIn(issuer).byPassword("another", "quality").access(),
              good + "x")) {
        assertRefused(refused);
      }
    } finally {
      logged.close();
    }
    assertThat(logged.text()).contains("Verification of the token").contains("(token left out)");
    for (String secret : List.of(parts[1], foreign.split("\\.", -1)[1], parts[2])) {
      assertThat(logged.text()).doesNotContain(secret);
    }
  }

  /** What stands before the console, as the settings of the application have it. */
  private static Filter consoleFilter() {
    return Stream.of(InitialConfigurator.DELAYED_HANDLER.getHandlers())
        .map(Handler::getFilter)
        .filter(Objects::nonNull)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void passwordsAreNoWayInWhereTokensAre() throws Exception {
    assertThat(asking.get("quality", "/api/v1/lots").status()).isEqualTo(401);
    Asking.Answer nobody = asking.ask("GET", "/api/v1/lots", Map.of(), "");
    assertThat(nobody.status()).isEqualTo(401);
    assertThat(nobody.header("WWW-Authenticate")).startsWith("Bearer");
  }

  /** Model: 21 CFR 11.200 (a). A refresh is made by a program, while the person may be away. */
  @Test
  void signingTakesATokenOfAFreshLogInHoweverFreshTheTokenItselfIs() throws Exception {
    IssuerLogIn logIn = new IssuerLogIn(issuer);
    IssuerLogIn.Given first = logIn.byForm("quality");
    for (int i = 0; i < 100 && !isFresh(first); i++) {
      first = logIn.byForm("quality");
    }
    assertThat(isFresh(first)).as("a log-in that was used at once").isTrue();

    IssuerLogIn.Given later = first;
    long before = Instant.now().getEpochSecond();
    Asking.Answer answer = prove(later);
    for (long end = end(); answer.status() != 403 && System.nanoTime() < end; ) {
      Thread.sleep(1_000);
      later = logIn.refreshed(later);
      before = Instant.now().getEpochSecond();
      answer = prove(later);
    }
    assertThat(answer.status()).as(answer.body()).isEqualTo(403);
    assertThat(answer.body())
        .contains(
            "/problems/fresh-log-in-needed", "at most " + WithTokens.SIGNING_SECONDS + " s ago");
    long loggedIn = first.claims().path("auth_time").asLong();
    assertThat(later.claims().path("auth_time").asLong()).isEqualTo(loggedIn);
    assertThat(later.claims().path("iat").asLong()).isGreaterThan(loggedIn);
    MatchResult age = AGE.matcher(answer.body()).results().findFirst().orElseThrow();
    assertThat(Long.parseLong(age.group(1)))
        .isBetween(before - loggedIn, Instant.now().getEpochSecond() - loggedIn);
  }

  @Test
  void aTokenThatDoesNotSayWhenItsPersonLoggedInSignsNothing() throws Exception {
    IssuerLogIn.Given silent = new IssuerLogIn(issuer).byPassword("kornspur", "quality");
    assertThat(silent.claims().has("auth_time")).isFalse();
    Asking.Answer answer = prove(silent);
    assertThat(answer.status()).as(answer.body()).isEqualTo(403);
    assertThat(answer.body())
        .contains("/problems/fresh-log-in-needed", "Have the issuer put this claim", "auth_time");
  }

  private boolean isFresh(IssuerLogIn.Given given) throws Exception {
    return prove(given).status() == 409;
  }

  /** Where a log-in anew is asked for before anything else; 409, for people are kept elsewhere. */
  private Asking.Answer prove(IssuerLogIn.Given given) throws Exception {
    return asking.ask(
        "POST",
        "/api/v1/account/password",
        Map.of("Authorization", "Bearer " + given.access(), "Content-Type", "application/json"),
        "{\"password\": \"none here\", \"newPassword\": \"kept by the issuer\"}");
  }

  private static long end() {
    return System.nanoTime() + Duration.ofMinutes(5).toNanos();
  }

  /** The program knows the roles of this person from the token alone. */
  @Test
  void aPersonOfTheIssuerHearsOfWhatTheTokenLetsThemSee() throws Exception {
    Waiting.until(() -> asking.ask("GET", "/health/ready", Map.of(), "").status() == 200);
    List<String> received = new CopyOnWriteArrayList<>();
    HttpServer web =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    web.createContext(
        "/",
        exchange -> {
          received.add(
              new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
          exchange.sendResponseHeaders(200, -1);
          exchange.close();
        });
    web.start();
    try {
      String address = "http://127.0.0.1:" + web.getAddress().getPort() + "/";
      String off =
          Stream.of("RELEASE_SUSPENDED", "EVIDENCE_DUE", "QUARANTINED", "VISIT_DUE", "PLAN_SHORT")
              .map(kind -> kind + "=OFF&")
              .collect(Collectors.joining());
      String chosen =
          off
              + "NOT_FIT=AT_ONCE&daysAhead=7&channel=WEBHOOK&webAddress="
              + URLEncoder.encode(address, StandardCharsets.UTF_8);
      // until the choices kept before have been read, it answers 503
      Waiting.until(
          () ->
              post("/notifications", "application/x-www-form-urlencoded", chosen).status() == 200);
      Asking.Answer brought =
          post(
              "/api/v1/facts",
              "application/json",
              "["
                  + InventedFitLot.facts("TK-1").get(0)
                  + ","
                  + InventedFitLot.failedPostControl("tk-control", "TK-1")
                  + "]");
      assertThat(brought.status()).as(brought.body()).isEqualTo(200);
      Waiting.until(() -> received.stream().anyMatch(one -> one.contains("TK-1")));
    } finally {
      web.stop(0);
    }
  }

  private Asking.Answer post(String path, String type, String body) throws Exception {
    return asking.ask(
        "POST",
        path,
        Map.of("Authorization", "Bearer " + token("quality"), "Content-Type", type),
        body);
  }

  @Test
  void whoAsksTooOftenIsToldWhenToComeAgainAndNobodyElseIsHindered() throws Exception {
    String token = token("busy");
    Callable<Asking.Answer> ask = () -> account(token);
    ExecutorService together = Executors.newFixedThreadPool(ASKED_TOGETHER);
    int answered = 0;
    Optional<Asking.Answer> refused = Optional.empty();
    try {
      // one after the other, a slow machine could ask less often than is allowed
      for (long end = end(); refused.isEmpty() && System.nanoTime() < end; ) {
        for (Future<Asking.Answer> asked :
            together.invokeAll(Collections.nCopies(ASKED_TOGETHER, ask))) {
          if (asked.get().status() == 200) {
            answered++;
          } else {
            refused = Optional.of(asked.get());
          }
        }
      }
    } finally {
      together.shutdown();
    }
    assertThat(answered).isGreaterThanOrEqualTo(WithTokens.MOST_A_MINUTE);
    Asking.Answer last = refused.orElseThrow();
    assertThat(last.status()).isEqualTo(429);
    assertThat(last.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(Integer.parseInt(last.header("Retry-After"))).isBetween(1, 60);
    assertThat(account(token("auditor")).status()).isEqualTo(200);
  }

  private int status(String person, String method, String path) throws Exception {
    Map<String, String> headers = new HashMap<>();
    headers.put("Authorization", "Bearer " + token(person));
    headers.put("Content-Type", "application/json");
    return asking.ask(method, path, headers, method.equals("POST") ? "{}" : "").status();
  }

  private Asking.Answer account(String token) throws Exception {
    return asking.ask("GET", "/api/v1/account", Map.of("Authorization", "Bearer " + token), "");
  }

  private void assertRefused(String token) throws Exception {
    Asking.Answer answer = account(token);
    assertThat(answer.status()).as(answer.body()).isEqualTo(401);
    assertThat(answer.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(answer.body()).contains("/problems/not-logged-in").doesNotContain(token);
  }

  private String token(String person) throws Exception {
    return new IssuerLogIn(issuer).byPassword("kornspur", person).access();
  }

  private static String base64(String text) {
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }
}
