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
import org.kornspur.api.Waiting;
import org.kornspur.api.rest.InventedFacts;
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
    return issued(personId, "QUALITY");
  }

  private String issued(String personId, String role) throws Exception {
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
                    new String[] {role})));
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

  /** Using the signature of another takes two persons: 21 CFR 11.200 (a) (3). */
  @Test
  void whoIssuedItCannotSignWithoutAnother() throws Exception {
    String lot = lotOfItsOwn();
    String issued = issued("p-24");
    assertThat(confirmedBy("quality", "p-24").body()).contains("has not set a password");
    assertThat(set("p-24", issued, OWN).status()).isEqualTo(204);
    assertThat(as("p-24", OWN, "GET", "/api/v1/account", "").status()).isEqualTo(200);
    assertThat(signed("p-24", lot).body())
        .contains("/problems/person-conflict", "administrator issued your password");

    assertThat(confirmedBy("administrator", "p-24").status()).isEqualTo(409);
    assertThat(as("p-24", OWN, "POST", "/api/v1/people/p-24/confirm", "").status()).isEqualTo(409);
    assertThat(confirmedBy("multiplier", "p-24").status()).isEqualTo(403);
    assertThat(set("p-25", issued("p-25"), OWN).status()).isEqualTo(204);
    assertThat(as("p-25", OWN, "POST", "/api/v1/people/p-24/confirm", "").body())
        .as("another account that the administrator made")
        .contains("/problems/person-conflict");
    assertThat(signed("p-24", lot).body()).contains("/problems/person-conflict");

    assertThat(confirmedBy("inspector", "p-24").status()).isEqualTo(204);
    assertThat(signed("p-24", lot).body()).contains("/problems/seal-changed");
    Asking.Answer journal =
        asking.ask(
            "GET",
            "/api/v1/people-journal?person=p-24",
            Map.of("Authorization", TestPeople.basic("administrator")),
            "");
    assertThat(journal.body()).contains("CONFIRMATION", "\"by\":\"inspector\"");

    asking.post("administrator", "/api/v1/people/p-24/password", "");
    assertThat(confirmedBy("inspector", "p-24").status()).as("issued anew").isEqualTo(409);
  }

  /** Else one administrator could make another, and be the two persons that it takes. */
  @Test
  void anAdministratorWhomNobodyConfirmedManagesNobody() throws Exception {
    assertThat(set("p-27", issued("p-27", "ADMINISTRATOR"), OWN).status()).isEqualTo(204);
    String person =
        "{\"personId\": \"p-28\", \"printedName\": \"Invented\", \"roles\": [\"QUALITY\"]}";
    assertManagesNobody(as("p-27", OWN, "POST", "/api/v1/people", person));
    assertManagesNobody(as("p-27", OWN, "POST", "/api/v1/people/quality/password", ""));
    assertManagesNobody(as("p-27", OWN, "POST", "/api/v1/people/quality/disable", ""));
    assertManagesNobody(as("p-27", OWN, "PUT", "/api/v1/people/quality", person));

    assertThat(confirmedBy("quality", "p-27").status()).isEqualTo(204);
    assertThat(as("p-27", OWN, "POST", "/api/v1/people", person).status()).isEqualTo(201);
  }

  private static void assertManagesNobody(Asking.Answer answer) {
    assertThat(answer.status()).as(answer.body()).isEqualTo(409);
    assertThat(answer.body()).contains("/problems/person-conflict", "administrator issued your");
  }

  @Test
  void thePageConfirmsOnceTheOtherHasProvedToBeThere() throws Exception {
    assertThat(set("p-26", issued("p-26"), OWN).status()).isEqualTo(204);
    Map<String, String> inspector = Map.of("Authorization", TestPeople.basic("inspector"));
    assertThat(asking.ask("GET", "/people/confirm", inspector, "").body())
        .contains("action=\"/people/confirm/p-26\"");
    assertThat(confirmedOnThePage("wrong").status()).isEqualTo(403);
    assertThat(confirmedOnThePage(TestPeople.password()).header("Location"))
        .endsWith("/people/confirm?done=yes");
    assertThat(asking.ask("GET", "/people/confirm?done=yes", inspector, "").body())
        .contains("Confirmed.")
        .doesNotContain("/people/confirm/p-26");
  }

  private Asking.Answer confirmedOnThePage(String password) throws Exception {
    return asking.ask(
        "POST",
        "/people/confirm/p-26",
        Map.of(
            "Authorization",
            TestPeople.basic("inspector"),
            "Content-Type",
            "application/x-www-form-urlencoded"),
        "password=" + URLEncoder.encode(password, StandardCharsets.UTF_8));
  }

  private Asking.Answer confirmedBy(String person, String whom) throws Exception {
    return asking.post(person, "/api/v1/people/" + whom + "/confirm", "");
  }

  private Asking.Answer signed(String person, String lot) throws Exception {
    String act =
        """
        {"kind": "SUSPEND", "seal": "%s", "meaning": "invented", "reason": "invented",
         "password": "%s"}"""
            .formatted("0".repeat(64), OWN);
    return as(person, OWN, "POST", "/api/v1/lots/" + lot + "/acts", act);
  }

  private String lotOfItsOwn() throws Exception {
    String lot = "CONFIRM-1";
    asking.post("quality", "/api/v1/facts", InventedFacts.lot("confirm-1", lot, "SX", 500));
    Waiting.until(() -> asking.get("quality", "/api/v1/lots/" + lot).status() == 200);
    return lot;
  }

  @Test
  void thePageAsksForAnotherAndThenLetsIn() throws Exception {
    String issued = issued("p-23");
    Asking.Answer asked = form("personId=p-23&next=/desk&password=" + issued);
    assertThat(asked.status()).isEqualTo(303);
    assertThat(asked.header("Location")).endsWith("/login?why=own&next=%2Fdesk");
    assertThat(asked.header("Set-Cookie")).isEmpty();
    Asking.Answer page = asking.ask("GET", "/login?why=own&next=%2Fdesk", Map.of(), "");
    assertThat(page.body()).contains("name=\"newPassword\"", "administrator issued this password");

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
