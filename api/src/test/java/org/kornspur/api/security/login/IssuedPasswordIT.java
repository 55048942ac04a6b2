package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.security.people.TestPeople;

/**
 * A password that an administrator has seen signs nothing and shows nothing (model: 21 CFR 11.200
 * (a) (3), 11.300 (d)).
 */
@ExtendWith(EmptyMachine.class)
class IssuedPasswordIT {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String OWN = "a password of my own";

  private final URI root = URI.create(EmptyMachine.root());

  private Asking asking;

  @BeforeEach
  void begin() {
    asking = new Asking(root.toString());
  }

  private String issued(String personId) throws Exception {
    Asking.Answer added =
        asking.post(
            "administrator",
            "/api/v1/people",
            JSON.writeValueAsString(
                Map.of(
                    "personId",
                    personId,
                    "printedName",
                    "Invented",
                    "roles",
                    new String[] {"QUALITY"})));
    assertThat(added.status()).as(added.body()).isEqualTo(201);
    return JSON.readTree(added.body()).path("password").asText();
  }

  private Asking.Answer as(String person, String password, String method, String path, String body)
      throws Exception {
    return asking.ask(
        method,
        path,
        Map.of(
            "Authorization",
            TestPeople.basic(person, password),
            "Content-Type",
            "application/json"),
        body);
  }

  private Asking.Answer set(String person, String old, String chosen) throws Exception {
    String body = JSON.writeValueAsString(Map.of("password", old, "newPassword", chosen));
    return as(person, old, "POST", "/api/v1/account/password", body);
  }

  private static void assertNotOwn(Asking.Answer answer) {
    assertThat(answer.status()).as(answer.body()).isEqualTo(403);
    assertThat(answer.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(answer.body())
        .contains("/problems/own-password-needed", "POST /api/v1/account/password");
  }

  @Test
  void itOpensNothingButTheWayToAnother() throws Exception {
    String issued = issued("p-21");
    for (String path : new String[] {"/", "/api/v1/lots", "/api/v1/account", "/desk", "/login"}) {
      assertNotOwn(as("p-21", issued, "GET", path, ""));
    }
    assertNotOwn(as("p-21", issued, "POST", "/api/v1/lots/none/acts", "{}"));
    assertNotOwn(as("p-21", issued, "DELETE", RoutePolicy.SESSION, ""));
    assertNotOwn(
        asking.ask(
            "POST",
            RoutePolicy.SESSION,
            Map.of("Content-Type", "application/json"),
            JSON.writeValueAsString(Map.of("personId", "p-21", "password", issued))));

    Asking.Answer same = set("p-21", issued, issued);
    assertThat(same.status()).isEqualTo(400);
    assertThat(same.body()).contains("newPassword", "another password").doesNotContain(issued);
    assertThat(set("p-21", issued, OWN).status()).isEqualTo(204);
    assertThat(as("p-21", OWN, "GET", "/api/v1/account", "").status()).isEqualTo(200);
    assertThat(as("p-21", issued, "GET", "/api/v1/account", "").status()).isEqualTo(401);
  }

  @Test
  void aPasswordOfOnesOwnIsNoneAnyMoreWhenTheAdministratorIssuesAnother() throws Exception {
    assertThat(set("p-22", issued("p-22"), OWN).status()).isEqualTo(204);
    assertThat(as("p-22", OWN, "GET", "/api/v1/account", "").status()).isEqualTo(200);
    Asking.Answer renewed = asking.post("administrator", "/api/v1/people/p-22/password", "");
    String again = JSON.readTree(renewed.body()).path("password").asText();
    assertThat(as("p-22", OWN, "GET", "/api/v1/account", "").status()).isEqualTo(401);
    assertNotOwn(as("p-22", again, "GET", "/api/v1/account", ""));
    asking.post("administrator", "/api/v1/people/p-22/disable", "");
    asking.post("administrator", "/api/v1/people/p-22/enable", "");
    assertNotOwn(as("p-22", again, "GET", "/api/v1/account", ""));
  }

  @Test
  void thePageAsksForAnotherAndThenLetsIn() throws Exception {
    String issued = issued("p-23");
    Asking.Answer asked = form("personId=p-23&next=/desk&password=" + issued);
    assertThat(asked.status()).isEqualTo(303);
    assertThat(asked.header("Location")).endsWith("/login?why=own&next=%2Fdesk");
    assertThat(asked.header("Set-Cookie")).isEmpty();
    Asking.Answer page = asking.ask("GET", "/login?why=own&next=%2Fdesk", Map.of(), "");
    assertThat(page.body()).contains("name=\"newPassword\"", "issued by the administrator");

    for (String refused : new String[] {"short", issued}) {
      Asking.Answer again =
          form("personId=p-23&next=/desk&password=" + issued + "&newPassword=" + refused);
      assertThat(again.header("Location")).endsWith("/login?why=own&next=%2Fdesk");
      assertThat(again.header("Set-Cookie")).isEmpty();
    }
    Asking.Answer in =
        form(
            "personId=p-23&next=/desk&password="
                + issued
                + "&newPassword="
                + URLEncoder.encode(OWN, StandardCharsets.UTF_8));
    assertThat(in.header("Location")).endsWith("/desk");
    String cookie = in.header("Set-Cookie").split(";", 2)[0];
    assertThat(asking.ask("GET", "/api/v1/account", Map.of("Cookie", cookie), "").status())
        .isEqualTo(200);
    assertThat(as("p-23", OWN, "GET", "/api/v1/account", "").status()).isEqualTo(200);
  }

  private Asking.Answer form(String body) throws Exception {
    return asking.ask(
        "POST",
        RoutePolicy.SESSION,
        Map.of("Content-Type", "application/x-www-form-urlencoded"),
        body);
  }
}
