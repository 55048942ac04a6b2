package org.kornspur.api.rest;

import static io.restassured.RestAssured.given;
import static io.restassured.RestAssured.when;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.hamcrest.Matchers.containsInAnyOrder;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.everyItem;
import static org.hamcrest.Matchers.greaterThan;
import static org.hamcrest.Matchers.greaterThanOrEqualTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasKey;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.startsWith;
import static org.kornspur.api.Waiting.until;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.HttpURLConnection;
import java.net.Socket;
import java.net.SocketException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;

/** The interface as a client meets it, with the real broker, registry and processors behind it. */
@ExtendWith(AsPerson.class)
@ExtendWith(EmptyMachine.class)
class InterfaceIT {
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(3);

  private final URI root = URI.create(EmptyMachine.root());

  @BeforeEach
  void waitUntilReady() {
    until(() -> when().get("/health/ready"), answer -> answer.statusCode() == 200);
  }

  @Test
  void aFactGoesInAndIsJudged() {
    post(InventedFacts.lot("a-1", "A-1", "SX", 500))
        .then()
        .statusCode(202)
        .body("factId", equalTo("a-1"))
        .body("outcome", equalTo("accepted"))
        .body("subjects.href", hasItem("/api/v1/lots/A-1"));

    Response lot = until(() -> when().get("/api/v1/lots/A-1"), Answered.WITH_200);
    lot.then()
        .body("subject", equalTo("lot:A-1"))
        .body("state", equalTo("EVIDENCE_OWED"))
        .body("sentence", startsWith("Lot A-1 waits for evidence. "))
        .body("material.category", equalTo("BASIC"))
        .body("heldKg", equalTo(500.0f))
        .body("leftKg", equalTo(500.0f))
        .body("holder.subject", equalTo("enterprise:ENT-1"))
        .body("gates", hasSize(greaterThan(3)))
        .body("gates.sentence", everyItem(notNullValue()))
        .body("cautions.about", hasItems("AUTHORITY", "SAMPLING_AND_TESTING"))
        .body("asOf.answeredAt", notNullValue())
        .body("links.facts", equalTo("/api/v1/lots/A-1/facts"));
    when()
        .get("/api/v1/lots/A-1/owed")
        .then()
        .statusCode(200)
        .body("owed", hasSize(greaterThan(0)))
        .body("owed.bring", hasItem(notNullValue()));
    when()
        .get("/api/v1/owed?id=A-1")
        .then()
        .statusCode(200)
        .body("total", equalTo(1))
        .body("items[0].subject.subject", equalTo("lot:A-1"));
  }

  @Test
  void theSameFactTwiceCountsOnceAndOtherContentIsAConflict() {
    String fact = InventedFacts.lot("b-1", "B-1", "SX", 500);
    post(fact).then().statusCode(202).body("outcome", equalTo("accepted"));
    post(fact).then().statusCode(202).body("outcome", equalTo("already-known"));

    problem(post(InventedFacts.lot("b-1", "B-1", "SX", 501)), 409)
        .then()
        .body("type", equalTo("/problems/fact-conflict"))
        .body("problems[0].field", equalTo("header.factId"))
        .body("problems[0].value", equalTo("'b-1'"))
        .body("problems[0].remedy", containsString("header.correction.supersedes"));
    until(() -> when().get("/api/v1/lots/B-1"), Answered.WITH_200);
    when()
        .get("/api/v1/lots/B-1/facts")
        .then()
        .statusCode(200)
        .body("facts", hasSize(1))
        .body("facts[0].fact.massKg", equalTo(500.0f))
        .body("facts[0].receivedAt", startsWith(LocalDate.now(ZoneOffset.UTC).toString()));
    // recorded in May 2024, as invented facts are
    assertThat(when().get("/lots/B-1").asString()).containsPattern("received [^<]+ days later");
  }

  @Test
  void foreignPollenNearACropIsServedWithItsNearestPoints() {
    String crop =
        """
            "cropId": "N-1", "fieldId": "N", "enterpriseId": "ENT-1", "hybridId": "HYB-N", \
            "role": "POLLINATOR", "seedComponentId": "PN", "pollenComponentId": "PN", \
            "cropYear": 2024, "category": "BASIC", "rulebookId": "EU", "outline": \
            [{"lon": 20.0, "lat": 53.0}, {"lon": 20.003, "lat": 53.0}, {"lon": 20.003, "lat": 53.002}]""";
    String source =
        """
            "sourceId": "NS-1", "kind": "RYE_CROP", "cropYear": 2024, "firstSeenOn": "2024-05-20", \
            "endedOn": null, "outline": [{"lon": 20.0, "lat": 52.996}, {"lon": 20.003, "lat": 52.996}, \
            {"lon": 20.003, "lat": 52.994}]""";
    post(InventedFacts.fact("FieldCropDeclared", "n-1", crop)).then().statusCode(202);
    post(InventedFacts.fact("PollenSourceSeen", "n-2", source)).then().statusCode(202);

    Response found =
        until(
            () -> when().get("/api/v1/crops/N-1/neighbours"),
            answer ->
                answer.statusCode() == 200 && answer.jsonPath().getList("neighbours").size() == 1);

    // 0.004 degrees of latitude at 53 degrees: 445.15 m by the radius of curvature of the WGS84
    // meridian
    assertThat(found.jsonPath().getDouble("neighbours[0].distanceM"))
        .isCloseTo(445.15, within(0.1));
    found
        .then()
        .body("neighbours[0].source.subject", equalTo("source:NS-1"))
        .body("neighbours[0].nearestOnCrop.lat", equalTo(53.0f))
        .body("neighbours[0].nearestOnSource.lat", equalTo(52.996f))
        .body("outline", hasSize(3));
    problem(when().get("/api/v1/crops/none-such/neighbours"), 404);
  }

  @Test
  void anInvalidFactIsRefusedWithEveryFault() {
    String fact =
        InventedFacts.lot("c-1", "C-1", "SX", -5).replace("\"cropYear\": 2023", "\"cropYear\": 1");

    problem(post(fact), 422)
        .then()
        .body("problems.field", containsInAnyOrder("massKg", "cropYear"))
        .body("problems.limit", everyItem(notNullValue()))
        .body("problems.remedy", everyItem(notNullValue()));
  }

  @Test
  void aBatchTakesTheGoodLinesAndNamesTheBadOnes() {
    String lines =
        String.join(
            "\n",
            InventedFacts.lot("d-1", "D-1", "SX", 500),
            "",
            "{not json",
            InventedFacts.lot("d-2", "D-2", "SX", -1),
            InventedFacts.lot("d-1", "D-1", "SX", 500),
            InventedFacts.lot("d-1", "D-1", "SX", 777),
            InventedFacts.lot("d-3", "D-3", "SX", 300));

    Response answer = postLines(lines);
    answer
        .then()
        .statusCode(207)
        .body("accepted", equalTo(2))
        .body("alreadyKnown", equalTo(1))
        .body("refused", equalTo(3))
        .body("items.line", equalTo(List.of(1, 3, 4, 5, 6, 7)))
        .body(
            "items.outcome",
            equalTo(
                List.of("accepted", "refused", "refused", "already-known", "refused", "accepted")))
        .body("items[2].problems[0].field", equalTo("massKg"))
        .body("items[4].problems[0].field", equalTo("header.factId"));

    until(() -> when().get("/api/v1/lots/D-3"), Answered.WITH_200);
    String entry = answer.jsonPath().getString("items[1].quarantine");
    until(() -> when().get(entry), Answered.WITH_200)
        .then()
        .body("state", equalTo("HELD"))
        .body("origin", equalTo("HTTP"))
        .body("place", equalTo("request " + answer.jsonPath().getString("requestId") + ", line 3"))
        .body("original.encoding", equalTo("utf-8"))
        .body("original.content", equalTo("{not json"));
  }

  @Test
  void aListIsABatchTooAndAllGoodIs200() {
    String list =
        "[%s,\n %s]"
            .formatted(
                InventedFacts.lot("e-1", "E-1", "SX", 500),
                InventedFacts.lot("e-2", "E-2", "SX", 500));

    post(list)
        .then()
        .statusCode(200)
        .body("items.index", equalTo(List.of(0, 1)))
        .body("items[0]", not(hasKey("line")))
        .body("accepted", equalTo(2));
  }

  @Test
  void aMendedFactIsReplayedAndAnotherEntryIsDiscarded() {
    String begun = Instant.now().truncatedTo(ChronoUnit.SECONDS).toString().replace("Z", "");
    String bad = InventedFacts.lot("f-1", "F-1", "SX", -5);
    post(bad).then().statusCode(422);
    String entry = heldEntryWith("f-1");

    problem(given().contentType("application/json").when().post(entry + "/replay"), 422)
        .then()
        .body("type", equalTo("/problems/not-replayable"))
        .body("problems[0].field", equalTo("massKg"));
    given()
        .contentType("application/json")
        .body(InventedFacts.lot("f-1", "F-1", "SX", 5))
        .when()
        .post(entry + "/replay?reason=weighed again")
        .then()
        .statusCode(200)
        .body("factId", equalTo("f-1"));
    until(() -> when().get(entry), stateIs("REPLAYED"))
        .then()
        .body("replayedAs", equalTo("f-1"))
        .body("decidedBy", equalTo(AsPerson.EVERYTHING))
        .body("decidedAt", greaterThanOrEqualTo(begun))
        .body("decisionReason", equalTo("weighed again"));
    problem(given().contentType("application/json").when().post(entry + "/replay"), 409);
    until(() -> when().get("/api/v1/lots/F-1"), Answered.WITH_200);

    post(InventedFacts.lot("f-2", "F-2", "SX", -5)).then().statusCode(422);
    String other = heldEntryWith("f-2");
    problem(given().contentType("application/json").body("{}").when().post(other + "/discard"), 400)
        .then()
        .body("problems[0].field", equalTo("reason"));
    given()
        .contentType("application/json")
        .body("{\"reason\": \"sent by mistake\"}")
        .when()
        .post(other + "/discard")
        .then()
        .statusCode(200)
        .body("state", equalTo("DISCARDED"))
        .body("decisionReason", equalTo("sent by mistake"))
        .body("decidedBy", equalTo(AsPerson.EVERYTHING))
        .body("decidedAt", greaterThanOrEqualTo(begun))
        .body("decisionReason", equalTo("sent by mistake"));
    until(
        () -> when().get("/api/v1/quarantine?state=DISCARDED"),
        answer -> answer.jsonPath().getList("items.href").contains(other));
  }

  @Test
  void aLotIsTracedFromTheLinesToTheCustomer() {
    postLines(String.join("\n", InventedFacts.fromLineToCustomer())).then().statusCode(200);

    Response back =
        until(
            () -> asWritten().get("/api/v1/lots/W-F1-C%2F1/trace?direction=back"),
            answer -> answer.statusCode() == 200 && nodes(answer).size() == 7);
    assertThat(nodes(back))
        .containsExactlyInAnyOrder(
            "lot:W-F1-C/1",
            "lot:W-F1-C",
            "lot:W-F1",
            "crop:W-CROP",
            "lot:W-MIX",
            "lot:W-SX",
            "lot:W-RP");
    back.then()
        .body("start.href", equalTo("/api/v1/lots/W-F1-C%2F1"))
        .body("nodes.find { it.id == 'W-SX' }.steps", equalTo(5))
        .body("edges.find { it.child == 'crop:W-CROP' }.massKg", equalTo(600.0f))
        .body("edges.find { it.child == 'crop:W-CROP' }.by", equalTo("Sowing"))
        .body("edges.find { it.parent == 'lot:W-RP' }.massKg", equalTo(100.0f))
        .body("dispatched", nullValue());

    until(
            () -> when().get("/api/v1/lots/W-SX/trace?direction=forward"),
            answer -> nodes(answer).contains("enterprise:CUST-1"))
        .then()
        .body("dispatched.totalKg", equalTo(5000.0f))
        .body("dispatched.byCustomerKg.CUST-1", equalTo(5000.0f));
    when()
        .get("/api/v1/lots/W-SX/trace?direction=forward&most=2")
        .then()
        .statusCode(200)
        .body("complete", equalTo(false))
        .body("note", containsString("most"));

    until(
            () -> asWritten().get("/api/v1/lots/W-F1-C%2F1"),
            answer -> answer.statusCode() == 200 && answer.jsonPath().getFloat("leftKg") == 15000)
        .then()
        .body("cautions.about", hasItem("TREATED_SEED"))
        .body("cautions.sentence", hasItem(containsString("invented dressing")))
        .body("heldKg", equalTo(20000.0f))
        .body("givenOutKg", equalTo(5000.0f))
        .body("leftKg", equalTo(15000.0f))
        .body("parents.subject", equalTo(List.of("lot:W-F1-C")));
    when().get("/api/v1/crops/W-CROP").then().statusCode(200).body("kind", equalTo("crop"));
    when()
        .get("/api/v1/crops?hybrid=HYB-T&cropYear=2024&sort=id")
        .then()
        .statusCode(200)
        .body("items.id", equalTo(List.of("W-CROP")));
    when().get("/api/v1/hybrids").then().statusCode(200).body("hybridId", hasItem("HYB-T"));
    when()
        .get("/api/v1/hybrids/HYB-T")
        .then()
        .statusCode(200)
        .body("facts.fact.type", hasItem("HybridDeclared"));
  }

  @Test
  void aCorrectedFactStaysVisibleAndNoLongerCounts() {
    post(InventedFacts.lot("g-1", "G-1", "SX", 5000)).then().statusCode(202);
    post(InventedFacts.correction(
            "LotDeclared",
            "g-2",
            "g-1",
            """
                "lotId": "G-1", "hybridId": "HYB-T", "componentId": "SX", "category": "BASIC", \
                "enterpriseId": "ENT-1", "rulebookId": "EU", "cropYear": 2023, "massKg": 500.0"""))
        .then()
        .statusCode(202);

    until(
            () -> when().get("/api/v1/lots/G-1"),
            answer -> answer.statusCode() == 200 && answer.jsonPath().getFloat("heldKg") == 500)
        .then()
        .body("state", notNullValue());
    when()
        .get("/api/v1/lots/G-1/facts")
        .then()
        .statusCode(200)
        .body("counting", equalTo(1))
        .body("superseded", equalTo(1))
        .body("facts.find { it.fact.header.factId == 'g-1' }.superseded.byFactId", equalTo("g-2"))
        .body(
            "facts.find { it.fact.header.factId == 'g-1' }.superseded.reason",
            equalTo("typing error"));
  }

  @Test
  void aChangeOfStandingArrivesLiveAndAReaderGoesOnWhereItStopped() throws Exception {
    CountDownLatch listening = new CountDownLatch(1);
    CompletableFuture<List<String>> first = listen("lot:H-1", null, listening);
    assertThat(listening.await(LONGEST_WAIT.toSeconds(), TimeUnit.SECONDS)).isTrue();
    post(InventedFacts.lot("h-1", "H-1", "SX", 500)).then().statusCode(202);
    List<String> heard = first.get(LONGEST_WAIT.toSeconds(), TimeUnit.SECONDS);

    String id = valueOf("id", heard);
    assertThat(id).matches("\\d+-\\d+(\\.\\d+-\\d+)*");
    assertThat(valueOf("event", heard)).isEqualTo("standing");
    assertThat(valueOf("data", heard)).contains("\"newState\":\"EVIDENCE_OWED\"", "\"reason\":");

    post(InventedFacts.lot("h-2", "H-2", "SX", 500)).then().statusCode(202);
    until(() -> when().get("/api/v1/lots/H-2"), Answered.WITH_200);
    List<String> missed =
        listen("lot:H-2", id, new CountDownLatch(1))
            .get(LONGEST_WAIT.toSeconds(), TimeUnit.SECONDS);
    assertThat(valueOf("data", missed)).contains("lot:H-2");
  }

  @Test
  void everyRefusalOfTheFrameworkIsAProblemDocument() {
    problem(when().get("/api/v1/lots/none-such"), 404)
        .then()
        .body("detail", containsString("none-such"))
        .body("detail", containsString("?id="));
    problem(when().get("/api/v1/nowhere"), 404);
    problem(when().get("/nowhere/at/all"), 404);
    problem(when().delete("/api/v1/lots"), 405).then().header("Allow", containsString("GET"));
    problem(given().accept("text/csv").when().get("/api/v1/lots"), 406);
    problem(given().contentType("text/csv").body("a,b").when().post("/api/v1/facts"), 415);
    problem(given().header("Accept", "foo").when().get("/api/v1/lots"), 406);
    problem(malformedContentType(), 415).then().body("problems[0].value", containsString("report"));
    problem(when().get("/api/v1/lots?page=x&state=GOOD&size=5000"), 400)
        .then()
        .body("problems.field", containsInAnyOrder("page", "state", "size"))
        .body("problems.limit", hasItem("one of FIT, NOT_FIT and EVIDENCE_OWED"));
    problem(post("[{\"a\": 1}, {\"a\":: 2}]"), 400)
        .then()
        .body("detail", containsString("(line 1, column "));
    problem(post("[]"), 400);
    problem(post("[" + "[".repeat(60) + "]".repeat(60) + "]"), 400);
    String kind = problem(when().get("/api/v1/nowhere"), 404).jsonPath().getString("type");
    when().get(kind).then().statusCode(200).body("type", equalTo(kind));
  }

  @Test
  void aMistypedFilterIsRefusedAndNotPassedOver() {
    problem(when().get("/api/v1/lots?stat=NOT_FIT&size=1"), 400)
        .then()
        .body("type", equalTo("/problems/invalid-parameter"))
        .body("problems.size()", equalTo(1))
        .body("problems[0].field", equalTo("stat"))
        .body("problems[0].value", equalTo("'NOT_FIT'"))
        .body("problems[0].limit", containsString("sort and state"));
    problem(when().get("/api/v1/fact-types?a=%F0%9F"), 400);
    problem(when().get("/api/v1/lots/none-such?year=2024"), 400)
        .then()
        .body("problems[0].limit", equalTo("no parameter at this address"));
    when().get("/api/v1/epcis/events?perPage=1").then().statusCode(200);
  }

  /** As in {@code a, b and c}. */
  private static String listed(Collection<String> names) {
    return String.join(", ", names).replaceFirst(", ([^,]*)$", " and $1");
  }

  /** Source: the OpenAPI document that is served, read as text and not through our own classes. */
  @Test
  void theParametersThatAreKnownAreThoseThatOpenApiLists() {
    JsonPath openApi = given().accept("application/json").get("/openapi").jsonPath();
    Map<String, Map<String, Object>> paths = openApi.getMap("paths");
    int withParameters = 0;
    for (var path : paths.entrySet()) {
      boolean namesAreFixed =
          path.getKey().startsWith("/api/v1") && !path.getKey().startsWith("/api/v1/epcis");
      if (!namesAreFixed || !path.getValue().containsKey("get")) {
        continue;
      }
      Set<String> listed = queryParameters((Map<?, ?>) path.getValue().get("get"));
      withParameters += listed.isEmpty() ? 0 : 1;
      problem(when().get(path.getKey().replaceAll("\\{[^}]*}", "x") + "?no-such=1"), 400)
          .then()
          .body(
              "problems[0].limit",
              equalTo(
                  listed.isEmpty()
                      ? "no parameter at this address"
                      : "one of the parameters " + listed(listed)));
    }
    assertThat(withParameters).as("addresses with parameters").isGreaterThan(10);
  }

  private static Set<String> queryParameters(Map<?, ?> operation) {
    Set<String> names = new TreeSet<>();
    if (operation.get("parameters") instanceof List<?> parameters) {
      for (Object parameter : parameters) {
        if (parameter instanceof Map<?, ?> one && "query".equals(one.get("in"))) {
          names.add(String.valueOf(one.get("name")));
        }
      }
    }
    return names;
  }

  /** Source of the statuses: RFC 9110, 15.5.15; RFC 6585, 5. */
  @Test
  void aLongAddressAndLargeHeadersAreAnsweredInWords() {
    given()
        .accept("text/html")
        .get("/trace?q=" + "9".repeat(5_000))
        .then()
        .statusCode(200)
        .body(containsString("5,000 characters"))
        .body(containsString("at most 128 characters"))
        .body(containsString("maxlength=\"128\""));
    problem(when().get("/trace?q=" + "9".repeat(9_000)), 414)
        .then()
        .body("type", equalTo("/problems/address-too-long"))
        .body("problems[0].limit", equalTo("at most 8,000 characters"));
    problem(given().header("X-Much", "9".repeat(25_000)).get("/api/v1/lots"), 431)
        .then()
        .body("problems[0].limit", containsString("20,480"));
    when().get("/problems/address-too-long").then().statusCode(200).body("status", equalTo(414));
  }

  @Test
  void aBodyOverTheLimitIsRefusedByItsLengthOrWhileItIsRead() throws Exception {
    try (Socket socket = new Socket(root.getHost(), root.getPort())) {
      socket.setSoTimeout((int) LONGEST_WAIT.toMillis());
      OutputStream out = socket.getOutputStream();
      out.write(
          ("POST /api/v1/facts HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
                  + "Content-Length: 10000001\r\nAuthorization: "
                  + TestPeople.basic(AsPerson.EVERYTHING)
                  + "\r\n\r\n")
              .getBytes(StandardCharsets.US_ASCII));
      out.flush();
      String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(answer)
          .startsWith("HTTP/1.1 413")
          .contains("application/problem+json", "10000000");
    }
    try (Socket socket = new Socket(root.getHost(), root.getPort())) {
      socket.setSoTimeout((int) LONGEST_WAIT.toMillis());
      sendInChunks(11_000_000, socket.getOutputStream());
      assertThat(
              new BufferedReader(
                      new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8))
                  .readLine())
          .startsWith("HTTP/1.1 413");
    }
  }

  private static void sendInChunks(int bytes, OutputStream out) throws IOException {
    byte[] blank = " ".repeat(1_000_000).getBytes(StandardCharsets.US_ASCII);
    out.write(
        ("POST /api/v1/facts HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
                + "Transfer-Encoding: chunked\r\nAuthorization: "
                + TestPeople.basic(AsPerson.EVERYTHING)
                + "\r\n\r\n")
            .getBytes(StandardCharsets.US_ASCII));
    try {
      for (int sent = 0; sent < bytes; sent += blank.length) {
        out.write((Integer.toHexString(blank.length) + "\r\n").getBytes(StandardCharsets.US_ASCII));
        out.write(blank);
        out.write("\r\n".getBytes(StandardCharsets.US_ASCII));
      }
      out.write("0\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
    } catch (SocketException answeredBefore) {
      // it may close as soon as it has answered, and the answer is there to be read
    }
  }

  @Test
  void theContractIsServedSoThatFormsCanBeMade() {
    when()
        .get("/api/v1/fact-types")
        .then()
        .statusCode(200)
        .body("type", hasItems("GerminationTest", "Blend", "Withdrawal"))
        .body(
            "find { it.type == 'Harvest' }.fields.find { it.name == 'massKg' }.unit",
            equalTo("kg"));
  }

  @Test
  void rulebooksAreServedWithTheirSources() {
    List<String> ids = when().get("/api/v1/rulebooks").then().statusCode(200).extract().path("id");
    assertThat(ids).contains("EU");
    when()
        .get("/api/v1/rulebooks/EU")
        .then()
        .statusCode(200)
        .body("limits", hasSize(greaterThan(5)))
        .body("limits.section", everyItem(notNullValue()));
    problem(when().get("/api/v1/rulebooks/none"), 404).then().body("detail", containsString("EU"));
  }

  @Test
  void openApiHealthMetricsAndTheIndexAreServed() {
    given()
        .accept("application/json")
        .when()
        .get("/openapi")
        .then()
        .statusCode(200)
        .body("openapi", startsWith("3."))
        .body("info.title", equalTo("Kornspur"))
        .body("info.license.name", equalTo("Apache-2.0"))
        .body("paths", hasKey("/api/v1/facts"))
        .body("paths", hasKey("/api/v1/lots/{id}/trace"))
        .body("paths", not(hasKey("/internal/dossier")))
        .body("components.responses", hasKey("Problem404"));
    when().get("/health/live").then().statusCode(200).body("status", equalTo("UP"));
    post(InventedFacts.lot("i-1", "I-1", "SX", 500)).then().statusCode(202);
    when()
        .get("/metrics")
        .then()
        .statusCode(200)
        .body(containsString("kornspur_facts_received_total"))
        .body(containsString("kornspur_feed_lag"))
        .body(containsString("kornspur_changes_listeners"));
    given()
        .accept("text/html")
        .when()
        .get("/")
        .then()
        .statusCode(200)
        .contentType(containsString("text/html"))
        .body(containsString("href=\"/lots\""));
    given()
        .accept("application/json")
        .when()
        .get("/")
        .then()
        .statusCode(200)
        .body("href", hasItem("/openapi"));
  }

  private enum Answered implements Predicate<Response> {
    WITH_200;

    @Override
    public boolean test(Response answer) {
      return answer.statusCode() == 200;
    }
  }

  private static Predicate<Response> stateIs(String state) {
    return answer -> state.equals(answer.jsonPath().getString("state"));
  }

  private static Response post(String json) {
    return given().contentType("application/json").body(json).when().post("/api/v1/facts");
  }

  /** Without a second round of encoding: %2F is the slash within an id. */
  private static RequestSpecification asWritten() {
    return given().urlEncodingEnabled(false).when();
  }

  private static Response postLines(String lines) {
    return given()
        .contentType("application/x-ndjson")
        .body(lines.getBytes(StandardCharsets.UTF_8))
        .when()
        .post("/api/v1/facts");
  }

  /** Members and media type as RFC 9457, sections 3 and 3.1, has them. */
  private static Response problem(Response answer, int status) {
    answer
        .then()
        .statusCode(status)
        .contentType("application/problem+json")
        .body("type", startsWith("/problems/"))
        .body("title", notNullValue())
        .body("status", equalTo(status))
        .body("detail", notNullValue())
        .body("remedy", notNullValue());
    return answer;
  }

  private static List<String> nodes(Response trace) {
    return trace.statusCode() == 200 ? trace.jsonPath().getList("nodes.subject") : List.of();
  }

  private static Response malformedContentType() {
    return given()
        .config(
            io.restassured.RestAssured.config()
                .encoderConfig(
                    io.restassured.config.EncoderConfig.encoderConfig()
                        .encodeContentTypeAs("report", io.restassured.http.ContentType.TEXT)
                        .appendDefaultContentCharsetToContentTypeIfUndefined(false)))
        .header("Content-Type", "report")
        .body("{}")
        .when()
        .post("/api/v1/facts");
  }

  private static String heldEntryWith(String text) {
    Response found =
        until(
            () -> when().get("/api/v1/quarantine?state=HELD&size=1000"),
            answer -> entryWith(answer, text) != null);
    return entryWith(found, text);
  }

  private static String entryWith(Response list, String text) {
    List<String> addresses = list.jsonPath().getList("items.href");
    return addresses.stream()
        .filter(href -> when().get(href).asString().contains(text))
        .findFirst()
        .orElse(null);
  }

  /**
   * Lines of the event that speaks of a subject.
   *
   * @param listening released as soon as the stream has begun: from then on nothing is missed
   */
  private CompletableFuture<List<String>> listen(
      String subject, String lastEventId, CountDownLatch listening) {
    return CompletableFuture.supplyAsync(
        () -> {
          try {
            HttpURLConnection stream =
                (HttpURLConnection) URI.create(root + "api/v1/changes").toURL().openConnection();
            stream.setReadTimeout((int) LONGEST_WAIT.toMillis());
            stream.setRequestProperty("Accept", "text/event-stream");
            stream.setRequestProperty("Authorization", TestPeople.basic(AsPerson.EVERYTHING));
            if (lastEventId != null) {
              stream.setRequestProperty("Last-Event-ID", lastEventId);
            }
            try (BufferedReader lines =
                new BufferedReader(
                    new InputStreamReader(stream.getInputStream(), StandardCharsets.UTF_8))) {
              assertThat(lines.readLine()).isEqualTo(": Kornspur");
              listening.countDown();
              return eventOn(subject, lines);
            }
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }

  private static List<String> eventOn(String subject, BufferedReader lines) throws IOException {
    List<String> event = new ArrayList<>();
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      if (!line.isEmpty()) {
        event.add(line);
      } else if (event.stream().anyMatch(part -> part.contains("\"" + subject + "\""))) {
        return event;
      } else {
        event.clear();
      }
    }
    throw new IllegalStateException("The stream ended without an event on " + subject);
  }

  /** Value of a field of an event, after WHATWG HTML, section 9.2.6. */
  private static String valueOf(String field, List<String> event) {
    return event.stream()
        .filter(line -> line.startsWith(field + ":"))
        .map(line -> line.substring(field.length() + 1).stripLeading())
        .findFirst()
        .orElseThrow();
  }
}
