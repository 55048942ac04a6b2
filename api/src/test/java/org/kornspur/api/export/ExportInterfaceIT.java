package org.kornspur.api.export;

import static io.restassured.RestAssured.given;
import static io.restassured.RestAssured.when;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.matchesPattern;
import static org.hamcrest.Matchers.startsWith;
import static org.kornspur.api.Waiting.until;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.export.epcis.EpcisPackage;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.web.DemoLoaded;

/** Exports and the EPCIS interface as a client meets them, with the whole demo behind them. */
@ExtendWith(DemoMachine.class)
@ExtendWith(AsPerson.class)
class ExportInterfaceIT {
  private static final String EVENTS = "/api/v1/epcis/events";
  private static final String CAPTURE = "/api/v1/epcis/capture";
  private static final Pattern NEXT = Pattern.compile("<([^>]+)>; rel=\"next\"");
  private static final ObjectMapper JSON = new ObjectMapper();

  @BeforeEach
  void waitForTheDemo() throws InterruptedException, IOException {
    DemoLoaded.await();
    until(() -> stateOf("L25-S06").equals("FIT") && stateOf("L25-S05-P1").equals("NOT_FIT"));
    until(() -> when().get(EVENTS).statusCode() == 200);
  }

  private static String stateOf(String lotId) {
    Response answer = when().get("/api/v1/lots/" + lotId);
    return answer.statusCode() == 200 && answer.path("asOf.complete").equals(true)
        ? answer.path("state")
        : "";
  }

  @Test
  @NeedsProgram(Program.NPM)
  void aLotsWholeHistoryIsValidAndComesBackWithoutChange() throws Exception {
    String document =
        given()
            .queryParam("ancestors", true)
            .get("/api/v1/lots/L25-S05-P1/history.epcis.json")
            .then()
            .statusCode(200)
            .contentType("application/ld+json")
            .extract()
            .asString();
    JsonNode read = JSON.readTree(document);
    assertThat(EpcisPackage.verdicts(List.of(read))).containsExactly("valid");
    assertThat(read.at("/epcisBody/eventList").size()).isGreaterThan(50);
    String job = capture(document, "rollback");
    when()
        .get(job)
        .then()
        .statusCode(200)
        .body("success", equalTo(true))
        .body("running", equalTo(false))
        .body("errors", hasSize(0));
  }

  @Test
  void bothTheWrongAndTheCorrectiveEventAreFound() {
    Response answer =
        given()
            .queryParam("MATCH_anyEPCClass", DemoMachine.ADDRESS + "/lots/R25-S06")
            .queryParam("EQ_bizStep", "creating_class_instance")
            .get(EVENTS);
    String list = "epcisBody.queryResults.resultsBody.eventList";
    List<Object> masses = answer.path(list + ".outputQuantityList.flatten().quantity");
    assertThat(masses).hasSize(2);
    answer
        .then()
        .statusCode(200)
        .body(list + ".errorDeclaration.reason", hasItem("incorrect_data"));
    String wrong = answer.path(list + ".find{it.errorDeclaration}.eventID");
    String right =
        answer.path(list + ".find{it.errorDeclaration}.errorDeclaration.correctiveEventIDs[0]");
    when().get(EVENTS + "/{id}", wrong).then().statusCode(200).body("eventID", equalTo(wrong));
    String reason = "'kornspur:reason'";
    String told = answer.path(list + ".find{it.errorDeclaration}.errorDeclaration." + reason);
    when()
        .get(EVENTS + "/{id}", wrong)
        .then()
        .body("errorDeclaration." + reason, equalTo(told))
        .body("errorDeclaration." + reason, matchesPattern("[ -~]+"));
    when()
        .get(EVENTS + "/{id}", right)
        .then()
        .statusCode(200)
        .body("outputQuantityList[0].quantity", equalTo(1240.0f));
  }

  @Test
  void pagesLeadThroughEveryEventOnceInOrderOfTime() {
    Set<String> ids = new HashSet<>();
    List<String> times = new ArrayList<>();
    String from = "2025-01-01T00:00:00Z";
    String to = "2026-01-01T00:00:00Z";
    String next = EVENTS + "?perPage=500&GE_eventTime=" + from + "&LT_eventTime=" + to;
    while (next != null) {
      Response page = given().urlEncodingEnabled(false).get(next);
      assertThat(page.statusCode()).isEqualTo(200);
      String list = "epcisBody.queryResults.resultsBody.eventList";
      page.<List<String>>path(list + ".eventID").forEach(id -> assertThat(ids.add(id)).isTrue());
      times.addAll(page.path(list + ".eventTime"));
      Matcher link = NEXT.matcher(page.header("Link") == null ? "" : page.header("Link"));
      next = link.find() ? link.group(1) : null;
    }
    long expected =
        DemoEntries.all().stream()
            .map(entry -> entry.header().getHappenedAt())
            .filter(time -> !time.isBefore(Instant.parse(from)) && time.isBefore(Instant.parse(to)))
            .count();
    assertThat(ids.size()).isBetween((int) expected, (int) expected + 10);
    assertThat(times.stream().map(Instant::parse).toList()).isSorted();
  }

  @Test
  void recordTimeAndEventTimeAreAskedForApart() {
    String late = EventId.ofFact(lateReport());
    given()
        .queryParam("EQ_bizStep", "https://kornspur.example/ns/observing_pollen_source")
        .queryParam("LT_eventTime", "2025-07-01T00:00:00Z")
        .queryParam("GE_recordTime", "2025-09-01T00:00:00Z")
        .queryParam("LT_recordTime", "2025-10-01T00:00:00Z")
        .get(EVENTS)
        .then()
        .statusCode(200)
        .body("epcisBody.queryResults.resultsBody.eventList.eventID", hasItem(late));
  }

  private static String lateReport() {
    return DemoEntries.all().stream()
        .filter(entry -> entry.fact().getSchema().getName().equals("PollenSourceSeen"))
        .filter(
            entry ->
                entry.header().getRecordedAt().isAfter(Instant.parse("2025-09-01T00:00:00Z"))
                    && entry
                        .header()
                        .getHappenedAt()
                        .isBefore(Instant.parse("2025-07-01T00:00:00Z")))
        .findFirst()
        .orElseThrow()
        .header()
        .getFactId();
  }

  @Test
  void aForeignShipmentIsCapturedAndTheRestOfItsDocumentAsTheHeaderSays() {
    String good = shipment("L25-01-1", 1);
    String bad = shipment("L25-01-1", -1);
    String rolledBack = capture(document(good, bad), "rollback");
    when()
        .get(rolledBack)
        .then()
        .body("success", equalTo(false))
        .body("errors", hasSize(1))
        .body("errors[0].detail", containsString("eventList[1]"));
    String goodId = good.replaceAll("(?s).*\"eventID\": \"([^\"]+)\".*", "$1");
    String factId = "epcis-" + goodId.substring("urn:uuid:".length());
    when().get(EVENTS + "/{id}", EventId.ofFact(factId)).then().statusCode(404);
    String proceeded = capture(document(good, bad), "proceed");
    when().get(proceeded).then().body("success", equalTo(false)).body("errors", hasSize(1));
    until(() -> when().get(EVENTS + "/{id}", EventId.ofFact(factId)).statusCode() == 200);
    when()
        .get(EVENTS + "/{id}", EventId.ofFact(factId))
        .then()
        .body("bizStep", equalTo("shipping"))
        .body("destinationList[0].destination", startsWith(DemoMachine.ADDRESS));
    until(() -> when().get("/api/v1/quarantine").asString().contains("massKg"));
    when().get("/api/v1/quarantine").then().body("items.reason", hasItem(containsString("massKg")));
    given().contentType("application/json").body(good).post(EVENTS).then().statusCode(201);
  }

  private static String shipment(String lotId, int massKg) {
    return """
        {"type": "ObjectEvent", "eventID": "urn:uuid:%s", "action": "OBSERVE",
         "eventTime": "2025-11-03T08:00:00+01:00", "eventTimeZoneOffset": "+01:00",
         "bizStep": "shipping",
         "quantityList": [{"epcClass": "%s/lots/%s", "quantity": %d, "uom": "KGM"}],
         "destinationList": [
           {"type": "owning_party", "destination": "%s/enterprises/ENT-CUST-01"}]}
        """
        .formatted(UUID.randomUUID(), DemoMachine.ADDRESS, lotId, massKg, DemoMachine.ADDRESS);
  }

  private static String document(String... events) {
    return """
        {"@context": ["https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld"],
         "type": "EPCISDocument", "schemaVersion": "2.0",
         "creationDate": "2025-11-03T09:00:00Z", "epcisBody": {"eventList": [%s]}}
        """
        .formatted(String.join(",", events));
  }

  private static String capture(String document, String behaviour) {
    return given()
        .contentType("application/ld+json")
        .header("GS1-Capture-Error-Behaviour", behaviour)
        .body(document)
        .post(CAPTURE)
        .then()
        .statusCode(202)
        .extract()
        .header("Location");
  }

  @Test
  void whatIsAskedWronglyIsAnsweredWithAProblem() {
    given()
        .queryParam("EQ_colour", "blue")
        .queryParam("GE_eventTime", "yesterday")
        .get(EVENTS)
        .then()
        .statusCode(400)
        .contentType("application/problem+json")
        .body("problems.field", hasItems("EQ_colour", "GE_eventTime"));
    given()
        .contentType("application/json")
        .body("{\"type\": \"EPCISDocument\"}")
        .post(CAPTURE)
        .then()
        .statusCode(400)
        .body("detail", containsString("schemaVersion"));
    when()
        .get("/api/v1/lots/UNHEARD/records.csv?ancestors=maybe")
        .then()
        .statusCode(400)
        .body("problems.field", hasItems("ancestors"))
        .body("problems.value", hasItems("'maybe'"));
    when().get(CAPTURE + "/unheard-of").then().statusCode(404);
    when().get("/api/v1/lots/UNHEARD/history.epcis.json").then().statusCode(404);
  }

  @Test
  void stepsAndTypesAreListed() {
    when()
        .get("/api/v1/epcis/bizSteps")
        .then()
        .statusCode(200)
        .body("member", hasItems("shipping", "https://kornspur.example/ns/sowing"));
    when()
        .get("/api/v1/epcis/eventTypes")
        .then()
        .body("member", hasItems("ObjectEvent", "TransformationEvent"));
    given()
        .queryParam("perPage", 1)
        .get("/api/v1/epcis/bizSteps/sampling/events")
        .then()
        .body("epcisBody.queryResults.resultsBody.eventList", hasSize(1));
  }

  @Test
  void recordsComeAsSpreadsheetTableAndProvenance() {
    byte[] workbook =
        when()
            .get("/api/v1/lots/R25-S06/records.xlsx")
            .then()
            .statusCode(200)
            .extract()
            .asByteArray();
    assertThat(new String(workbook, 0, 2, StandardCharsets.US_ASCII)).isEqualTo("PK");
    when()
        .get("/api/v1/lots/R25-S06/records.csv")
        .then()
        .statusCode(200)
        .contentType(startsWith("text/csv"))
        .header("Content-Disposition", containsString("attachment"))
        .body(containsString("massKg (kg)"));
    given()
        .queryParam("ancestors", true)
        .get("/api/v1/lots/L25-S05-P1/history.prov.json")
        .then()
        .statusCode(200)
        .body("entity.keySet()", hasItems("lot:L25-S05-P1", "lot:L24-S05"));
  }

  @Test
  void theLinkOfALabelOpensTheLotsPage() {
    String lotId = "L25-01-1";
    String link = DemoMachine.ADDRESS + "/01/" + DemoMachine.GTIN + "/10/" + lotId;
    when()
        .get("/api/v1/lots/" + lotId + "/label.png")
        .then()
        .statusCode(409)
        .body("detail", containsString("not released"));
    given()
        .redirects()
        .follow(false)
        .get(link.substring(DemoMachine.ADDRESS.length()))
        .then()
        .statusCode(307)
        .header("Location", containsString("/lots/" + lotId));
    when().get("/01/04012345000023/10/" + lotId).then().statusCode(404);
    when()
        .get("/api/v1/lots/" + lotId + "/label")
        .then()
        .statusCode(200)
        .body("link", equalTo(link))
        .body("cautions[0]", containsString("not an official label"))
        .body("missing", hasItem(startsWith("SERIAL_NUMBER")));
    when()
        .get("/api/v1/lots/" + lotId + "/label.svg")
        .then()
        .statusCode(200)
        .body(containsString("WARNING: NOT RELEASED"));
  }

  @Test
  void aLotThatIsNotFitBearsAWarningOrNoLabelAtAll() {
    when()
        .get("/api/v1/lots/L25-S05-P1/label")
        .then()
        .statusCode(200)
        .body("cautions", hasItem(containsString("must not be labelled and sold")));
    when()
        .get("/api/v1/lots/L25-S05-P1/label.svg")
        .then()
        .statusCode(200)
        .body(containsString("WARNING: NOT FIT"));
    when()
        .get("/api/v1/lots/L25-S05-P1/label.png")
        .then()
        .statusCode(409)
        .contentType("application/problem+json");
  }
}
