package org.kornspur.api.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.bootstrap.logging.InitialConfigurator;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import jakarta.inject.Inject;
import java.net.URI;
import java.net.URL;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.logging.Filter;
import java.util.logging.Handler;
import java.util.stream.Stream;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.api.problem.ApiProblem;

/** Bearer tokens of a real issuer, Keycloak, which the test starts. */
@QuarkusTest
@TestProfile(WithTokens.class)
class TokensTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String PASSWORD = "an invented password";

  @TestHTTPResource("/")
  URL root;

  @ConfigProperty(name = "kornspur.oidc.issuer")
  String issuer;

  @Inject ReAuthentication reAuthentication;

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
    assertRefused(token(issuer, "another", "quality"));
  }

  @Test
  void aTokenOfAnotherIssuerIsRefused() throws Exception {
    String elsewhere = issuer.replace("/kornspur", "/elsewhere");
    assertRefused(token(elsewhere, "kornspur", "quality"));
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
    String token = token(issuer, "short-lived", "quality");
    JsonNode claims = JSON.readTree(Base64.getUrlDecoder().decode(token.split("\\.", -1)[1]));
    assertThat(account(token).status()).isEqualTo(200);
    long over = claims.path("exp").asLong() * 1000 - System.currentTimeMillis();
    Thread.sleep(Math.max(0, over) + 1_500);
    assertRefused(token);
  }

  /** The library logs what it refuses, some of it in warnings; searched at every level. */
  @Test
  void noTokenIsLogged() throws Exception {
    String good = token("quality");
    String[] parts = good.split("\\.", -1);
    String unsigned = base64("{\"alg\":\"none\",\"typ\":\"JWT\"}") + "." + parts[1] + ".";
    String foreign = token(issuer.replace("/kornspur", "/elsewhere"), "kornspur", "quality");
    Logged logged = new Logged();
    logged.setFilter(consoleFilter());
    try {
      assertThat(account(good).status()).isEqualTo(200);
      for (String refused :
          List.of(unsigned, foreign, token(issuer, "another", "quality"), good + "x")) {
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

  /** Model: 21 CFR 11.200 (a). */
  @Test
  void signingTakesATokenOfAFreshLogIn() {
    reAuthentication.require(caller(Duration.ofMinutes(4)), Optional.empty());
    assertThatThrownBy(
            () -> reAuthentication.require(caller(Duration.ofMinutes(6)), Optional.empty()))
        .isInstanceOf(ApiProblem.class)
        .hasMessageContaining("at most 300 s ago");
  }

  @Test
  void whoAsksTooOftenIsToldWhenToComeAgainAndNobodyElseIsHindered() throws Exception {
    String token = token("busy");
    int answered = 0;
    Asking.Answer last = account(token);
    while (last.status() == 200 && answered < 2 * WithTokens.MOST_A_MINUTE) {
      answered++;
      last = account(token);
    }
    assertThat(answered).isGreaterThanOrEqualTo(WithTokens.MOST_A_MINUTE);
    assertThat(last.status()).isEqualTo(429);
    assertThat(last.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(Integer.parseInt(last.header("Retry-After"))).isBetween(1, 60);
    assertThat(account(token("auditor")).status()).isEqualTo(200);
  }

  private static Caller caller(Duration age) {
    return new Caller(
        "quality",
        "Invented",
        Set.of(Role.QUALITY),
        Optional.empty(),
        Caller.Proof.TOKEN,
        Instant.now().minus(age));
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
    return token(issuer, "kornspur", person);
  }

  private static String token(String realm, String client, String person) throws Exception {
    String form =
        "grant_type=password&scope=openid&client_id="
            + client
            + "&username="
            + person
            + "&password="
            + URLEncoder.encode(PASSWORD, StandardCharsets.UTF_8);
    HttpResponse<String> answer =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(URI.create(realm + "/protocol/openid-connect/token"))
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString(form))
                    .build(),
                HttpResponse.BodyHandlers.ofString());
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    return JSON.readTree(answer.body()).path("access_token").asText();
  }

  private static String base64(String text) {
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }
}
