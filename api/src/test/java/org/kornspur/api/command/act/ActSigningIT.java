package org.kornspur.api.command.act;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.everyItem;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.is;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;
import static org.kornspur.api.Waiting.until;
import static org.kornspur.api.command.act.InventedFitLot.fact;
import static org.kornspur.api.command.act.InventedFitLot.failedPostControl;
import static org.kornspur.api.command.act.InventedFitLot.moisture;

import io.restassured.http.ContentType;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.time.Duration;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.SharedMachine;
import org.kornspur.api.TestFolder;
import org.kornspur.api.packaged.OneMachine;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;

/** Acts as persons sign them, with the real people file, broker and processors behind it. */
@ExtendWith(ActSigningIT.TwoPersons.class)
class ActSigningIT {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);

  /** One machine on which two persons must sign a release. */
  static final class TwoPersons extends SharedMachine {
    @Override
    protected OneMachine prepared() throws IOException {
      return new OneMachine(TestFolder.emptied("two-persons"))
          .with("KORNSPUR_RELEASE_TWO_PERSONS", "true");
    }
  }

  @BeforeEach
  void waitUntilReady() {
    until(() -> given().get("/health/ready"), answer -> answer.statusCode() == 200);
  }

  @Test
  void aReleaseFromTheFirstSignatureToTheLateResultThatSuspendsIt() throws Exception {
    bringFitLot("R-1");
    String sheet = "/api/v1/lots/R-1/release-sheet";
    JsonPath read = as(QUALITY).get(sheet).jsonPath();
    String seal = read.getString("seal");
    assertThat(sha256(read.getString("sealedText"))).isEqualTo(seal);
    assertThat(read.getString("standing.state")).isEqualTo("FIT");
    assertThat(read.getBoolean("acts.find { it.kind == 'RELEASE' }.possible")).isTrue();
    assertThat(read.getBoolean("acts.find { it.kind == 'SUSPEND' }.possible")).isFalse();

    sign(QUALITY, "R-1", act("RELEASE", seal, null)).then().statusCode(403);
    sign(QUALITY, "R-1", act("RELEASE", seal, "not the password")).then().statusCode(403);
    sign(TestPeople.of(Role.AUDITOR), "R-1", act("RELEASE", seal, TestPeople.password()))
        .then()
        .statusCode(403);
    sign(QUALITY, "R-1", act("SUSPEND", seal, TestPeople.password()))
        .then()
        .statusCode(409)
        .body("type", equalTo("/problems/act-out-of-sequence"))
        .body("detail", containsString("nothing to suspend"));

    sign(QUALITY, "R-1", act("RELEASE", seal, TestPeople.password()))
        .then()
        .statusCode(201)
        .body("printedName", equalTo("Invented quality"))
        .body("meaning", equalTo("responsibility for the release"))
        .body(
            "sentence", containsString("as one of two persons, by Invented quality (quality) on "))
        .body("signatureVerifies", is(true))
        .body("signed.seal", equalTo(seal))
        .body("signed.sealIsStillSo", is(true))
        .body("signed.signaturesNeeded", equalTo(2));
    untilStep("R-1", "PROPOSED");
    sign(QUALITY, "R-1", act("RELEASE", seal, TestPeople.password()))
        .then()
        .statusCode(409)
        .body("detail", containsString("a second person"));
    sign(AsPerson.EVERYTHING, "R-1", act("RELEASE", seal, TestPeople.password()))
        .then()
        .statusCode(201);
    untilStep("R-1", "RELEASED");
    sign(QUALITY, "R-1", act("RELEASE", seal, TestPeople.password()))
        .then()
        .statusCode(409)
        .body("detail", containsString("released already"));
    as(QUALITY)
        .get("/api/v1/lots?release=RELEASED&id=R-1")
        .then()
        .body("items.id", hasItem("R-1"))
        .body("items.release", everyItem(equalTo("RELEASED")));

    until(
            () -> as(QUALITY).get("/api/v1/lots/R-1/acts"),
            answer -> answer.jsonPath().getList("findAll { it.refused }").size() >= 6)
        .then()
        .statusCode(200)
        .body("signatureVerifies", everyItem(is(true)))
        .body("findAll { it.refused }", hasSize(6))
        .body("findAll { it.refused }.refusalGround", hasItem("NOT_AUTHENTICATED"))
        .body("findAll { it.refusalGround == 'NO_AUTHORITY' }.signerId", hasItem("auditor"))
        .body("findAll { it.refusalGround == 'OUT_OF_SEQUENCE' }", hasSize(3))
        .body("findAll { !it.refused }.printedName", hasItem("Invented everything"));
    assertThat(as(QUALITY).get("/api/v1/lots/R-1/facts").asString())
        .doesNotContain("Invented quality")
        .doesNotContain(TestPeople.password());

    String actId =
        as(QUALITY).get("/api/v1/lots/R-1/acts").jsonPath().getString("find { !it.refused }.actId");
    as(QUALITY)
        .contentType(ContentType.JSON)
        .body(withdrawal("R-undo", actId))
        .post("/api/v1/facts")
        .then()
        .statusCode(403)
        .body("problems.field", hasItem("withdrawnFactId"))
        .body("problems.remedy", hasItem(containsString("Sign the act that is to follow")));
    aWithdrawalIsNotWithdrawn();

    bring(split("R-split", "R-1", "R-1/1"));
    untilState("R-1/1", "FIT");
    String part = SettledSeal.of(QUALITY, "R-1/1");
    sign(QUALITY, "R-1/1", act("RELEASE", part, TestPeople.password())).then().statusCode(201);
    sign(AsPerson.EVERYTHING, "R-1/1", act("RELEASE", part, TestPeople.password()))
        .then()
        .statusCode(201);
    untilStep("R-1/1", "RELEASED");

    bring(failedPostControl("R-late", "R-1"));
    untilStep("R-1", "SUSPENDED")
        .then()
        .body("release.causes", hasItem("R-late"))
        .body("release.changes.gate", hasItem("POST_CONTROL"))
        .body("release.why", containsString("R-late"));
    as(QUALITY)
        .get("/lots/R-1")
        .then()
        .body(containsString("release suspended"))
        .body(containsString("Suspended by record R-late"));
    untilStep("R-1/1", "SUSPENDED")
        .then()
        .body("release.causes", hasItem("R-late"))
        .body("release.changes.inheritedFrom", hasItem("lot:R-1"));

    sign(QUALITY, "R-1", act("RELEASE", seal, TestPeople.password()))
        .then()
        .statusCode(409)
        .body("type", equalTo("/problems/seal-changed"))
        .body("problems.value", hasItem(containsString("R-late")))
        .body("problems.field", hasItem("verdict"));
    sign(QUALITY, "R-1", act("RELEASE", SettledSeal.of(QUALITY, "R-1"), TestPeople.password()))
        .then()
        .statusCode(409)
        .body("detail", containsString("only fit lots are released"));

    as(TestPeople.of(Role.ADMINISTRATOR))
        .delete("/api/v1/people/everything/name")
        .then()
        .statusCode(204);
    as(TestPeople.of(Role.AUDITOR))
        .get("/api/v1/people-journal?person=everything")
        .then()
        .body("isWhole", is(true))
        .body("items[0].what", equalTo("SIGNER_NAME_FORGOTTEN"))
        .body("items[0].by", equalTo("administrator"))
        .body("items[0].at", notNullValue());
    until(
        () -> as(QUALITY).get("/api/v1/lots/R-1/acts"),
        answer -> answer.jsonPath().getList("findAll { it.nameForgotten }").size() == 1);
    as(QUALITY)
        .get("/api/v1/lots/R-1/acts")
        .then()
        .body("find { it.nameForgotten }.signerId", equalTo("everything"))
        .body("find { it.nameForgotten }.printedName", nullValue())
        .body("find { it.nameForgotten }.signatureVerifies", is(true));
  }

  @Test
  void severalLotsAreReleasedByTwoPersonsAndWhatCannotBeIsLeftOut() {
    bringFitLot("R-several-1");
    bringFitLot("R-several-2");
    Map<String, String> seals =
        Map.of(
            "R-several-1",
            SettledSeal.of(QUALITY, "R-several-1"),
            "R-several-2",
            SettledSeal.of(QUALITY, "R-several-2"),
            "R-nobody-knows",
            "0".repeat(64));

    release(QUALITY, seals, "not the password")
        .then()
        .statusCode(403)
        .body("type", equalTo("/problems/fresh-log-in-needed"));
    release(QUALITY, seals, TestPeople.password())
        .then()
        .statusCode(200)
        .body("signed", equalTo(2))
        .body("leftOut", equalTo(1))
        .body("items.find { it.lot.subject == 'lot:R-nobody-knows' }.status", equalTo(404))
        .body("items.findAll { it.act }.act.signatureVerifies", everyItem(is(true)))
        .body("items.findAll { it.act }.act.signed.seal", hasSize(2));
    untilStep("R-several-1", "PROPOSED");
    untilStep("R-several-2", "PROPOSED");
    release(QUALITY, seals, TestPeople.password())
        .then()
        .body("signed", equalTo(0))
        .body(
            "items.findAll { it.status == 409 }.problem.detail",
            everyItem(containsString("a second person")));

    bring(failedPostControl("R-several-late", "R-several-2"));
    untilState("R-several-2", "NOT_FIT");
    release(AsPerson.EVERYTHING, seals, TestPeople.password())
        .then()
        .body("signed", equalTo(1))
        .body(
            "items.find { it.lot.subject == 'lot:R-several-2' }.problem.type",
            equalTo("/problems/seal-changed"));
    untilStep("R-several-1", "RELEASED");
    until(
            () -> as(QUALITY).get("/api/v1/lots/R-several-2/acts"),
            answer -> answer.jsonPath().getList("findAll { it.refused }").size() == 3)
        .then()
        .body("refusalGround", hasItem("NOT_AUTHENTICATED"))
        .body("refusalGround", hasItem("OUT_OF_SEQUENCE"))
        .body("refusalGround", hasItem("SEAL_CHANGED"));
  }

  private static Response release(String person, Map<String, String> seals, String password) {
    return as(person)
        .contentType(ContentType.JSON)
        .body(
            Map.of(
                "reason",
                "all evidence is there",
                "meaning",
                "responsibility for the release",
                "password",
                password,
                "lots",
                seals.entrySet().stream()
                    .map(lot -> Map.of("id", lot.getKey(), "seal", lot.getValue()))
                    .toList()))
        .post("/api/v1/release-acts");
  }

  /** Records stay for ever, and each has the lot judged again. */
  @Test
  void whoIsRefusedAgainAndAgainDoesNotFillTheDossier() {
    bringFitLot("R-often");
    Map<String, Object> body = act("RELEASE", "0".repeat(64), "none");
    for (int i = 0; i < RefusedActRecorder.MOST_AN_HOUR + 5; i++) {
      sign(TestPeople.of(Role.AUDITOR), "R-often", body).then().statusCode(403);
    }
    sign(TestPeople.of(Role.LABORATORY), "R-often", body).then().statusCode(403);

    until(
            () -> as(QUALITY).get("/api/v1/lots/R-often/acts"),
            answer -> answer.jsonPath().getList("signerId").contains("laboratory"))
        .then()
        .body("findAll { it.signerId == 'auditor' }", hasSize(RefusedActRecorder.MOST_AN_HOUR));
  }

  @Test
  void actsAreNotTakenInAsOrdinaryFacts() {
    as(AsPerson.EVERYTHING)
        .contentType(ContentType.JSON)
        .body("{\"type\": \"Release\", \"lotId\": \"X-1\"}")
        .post("/api/v1/facts")
        .then()
        .statusCode(422)
        .body("problems[0].remedy", equalTo("An act is signed at POST /api/v1/lots/{id}/acts"));
    as(AsPerson.EVERYTHING)
        .get("/api/v1/fact-types")
        .then()
        .body("type", not(hasItem("Release")))
        .body("type", hasItem("Withdrawal"));
  }

  @Test
  void aCorrectionShowsBothValuesWhoAndWhenByBothTimes() {
    bring(moisture("C-wrong", "C-1", "2024-05-02T10:00:00Z", null, 41.5));
    bring(moisture("C-right", "C-1", "2024-05-09T10:00:00Z", "C-wrong", 14.5));
    String facts = "/api/v1/lots/C-1/facts";
    until(
        () -> as(QUALITY).get(facts),
        answer -> answer.statusCode() == 200 && answer.jsonPath().getInt("superseded") == 1);

    as(QUALITY)
        .get(facts)
        .then()
        .body("counting", equalTo(1))
        .body("facts.find { !it.counts }.fact.moisturePercent", equalTo(41.5f))
        .body("facts.find { !it.counts }.superseded.fact.moisturePercent", equalTo(14.5f))
        .body("facts.find { !it.counts }.superseded.reason", equalTo("typing error"))
        .body("facts.find { !it.counts }.superseded.recordedBy", equalTo("p-01"))
        .body("facts.find { !it.counts }.superseded.recordedAt", equalTo("2024-05-09T10:00:00Z"));
    as(QUALITY)
        .get(facts + "?recordedFrom=2024-05-09T00:00:00Z")
        .then()
        .body("facts.fact.header.factId", equalTo(List.of("C-right")));
    as(QUALITY)
        .get(facts + "?recordedTo=2024-05-09T00:00:00Z&happenedFrom=2024-05-02T10:00:00Z")
        .then()
        .body("facts.fact.header.factId", equalTo(List.of("C-wrong")));
    as(QUALITY)
        .get(facts + "?happenedTo=yesterday")
        .then()
        .statusCode(400)
        .body("problems[0].field", equalTo("happenedTo"));
  }

  private static void bringFitLot(String lot) {
    List<String> facts = InventedFitLot.facts(lot);
    bring(InventedFitLot.laboratory());
    bring(facts.toArray(String[]::new));
    until(
        () -> as(QUALITY).pathParam("lot", lot).get("/api/v1/lots/{lot}/facts"),
        answer ->
            answer.statusCode() == 200 && answer.jsonPath().getInt("counting") == facts.size());
    untilState(lot, "FIT");
    SettledSeal.of(QUALITY, lot);
  }

  private static String split(String id, String from, String part) {
    return fact(
        "LotSplit",
        id,
        "2022-09-10T10:00:00Z",
        null,
        """
        "fromLotId": "%s", "parts": [{"lotId": "%s", "massKg": 100}]\
        """
            .formatted(from, part));
  }

  /** Tried with a new id each time, for the first withdrawal is registered a moment later. */
  private static void aWithdrawalIsNotWithdrawn() {
    bring(withdrawal("R-taken-back", "no-such-fact"));
    AtomicInteger tries = new AtomicInteger();
    await()
        .atMost(Duration.ofSeconds(30))
        .untilAsserted(
            () ->
                as(QUALITY)
                    .contentType(ContentType.JSON)
                    .body(withdrawal("R-again-" + tries.incrementAndGet(), "R-taken-back"))
                    .post("/api/v1/facts")
                    .then()
                    .statusCode(403)
                    .body("problems.field", hasItem("withdrawnFactId"))
                    .body("problems.remedy", hasItem(containsString("A withdrawal stands"))));
  }

  private static String withdrawal(String id, String factId) {
    return fact(
        "Withdrawal",
        id,
        "2023-06-21T10:00:00Z",
        null,
        """
        "withdrawnFactId": "%s", "reason": "no longer wanted"\
        """
            .formatted(factId));
  }

  private static void bring(String... facts) {
    as(AsPerson.EVERYTHING)
        .contentType(ContentType.JSON)
        .body("[" + String.join(", ", facts) + "]")
        .post("/api/v1/facts")
        .then()
        .statusCode(200);
  }

  private static Map<String, Object> act(String kind, String seal, String password) {
    Map<String, Object> act = new HashMap<>();
    act.put("kind", kind);
    act.put("reason", "all evidence is there");
    act.put("meaning", "responsibility for the release");
    act.put("seal", seal);
    if (password != null) {
      act.put("password", password);
    }
    return act;
  }

  private static Response sign(String person, String lot, Map<String, Object> act) {
    return as(person)
        .contentType(ContentType.JSON)
        .body(act)
        .pathParam("lot", lot)
        .post("/api/v1/lots/{lot}/acts");
  }

  private static Response untilState(String lot, String state) {
    return until(
        () -> as(QUALITY).pathParam("lot", lot).get("/api/v1/lots/{lot}"),
        answer -> answer.statusCode() == 200 && state.equals(answer.jsonPath().getString("state")));
  }

  private static Response untilStep(String lot, String step) {
    return until(
        () -> as(QUALITY).pathParam("lot", lot).get("/api/v1/lots/{lot}"),
        answer ->
            answer.statusCode() == 200 && step.equals(answer.jsonPath().getString("release.step")));
  }

  private static RequestSpecification as(String person) {
    return given().header("Authorization", TestPeople.basic(person));
  }

  private static String sha256(String text) throws Exception {
    return HexFormat.of()
        .formatHex(
            MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
  }
}
