package org.kornspur.api.query.advice;

import static io.restassured.RestAssured.given;
import static io.restassured.RestAssured.when;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.hamcrest.Matchers.containsInAnyOrder;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.everyItem;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasKey;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.startsWith;
import static org.kornspur.api.Waiting.until;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.command.act.InventedFitLot;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.login.AsPerson;

/** Advice as a client meets it, with the real broker, registry and processors behind it. */
@ExtendWith(AsPerson.class)
@ExtendWith(EmptyMachine.class)
class AdviceIT {

  @BeforeEach
  void waitUntilAllFactsAreJudged() {
    until(() -> when().get("/health/ready"), answer -> answer.statusCode() == 200);
    given()
        .contentType("application/json")
        .body("[" + String.join(",\n", production()) + "]")
        .when()
        .post("/api/v1/facts")
        .then()
        .statusCode(200);
    until(
        () -> when().get("/api/v1/lots?id=V-"),
        answer ->
            answer.statusCode() == 200
                && states(answer, "V-SX").equals("FIT")
                && states(answer, "V-RP").equals("FIT")
                && states(answer, "V-OWED").equals("EVIDENCE_OWED")
                && !states(answer, "V-F1").isEmpty());
    until(
        () -> when().get("/api/v1/advice/hybridity/V-CROP"),
        answer ->
            answer.statusCode() == 200
                && answer.jsonPath().getList("foreignPollen").size() == 1
                && answer.jsonPath().getList("missing").size() == 1
                && answer.jsonPath().getList("inputs.factIds.flatten()").contains("v-inspection"));
    until(
        () -> when().get("/api/v1/advice/calibration?hybrid=HYB-V"),
        answer ->
            answer.statusCode() == 200
                && answer.jsonPath().getList("rows").size() == 1
                && answer.jsonPath().get("rows[0].fit") != null
                && answer.jsonPath().getBoolean("complete")
                && answer.jsonPath().getBoolean("asOf.complete"));
    until(
        () -> when().get("/api/v1/advice/inspection/V-CROP"),
        answer ->
            answer.statusCode() == 200
                && answer.jsonPath().getInt("counts[0].unitsCounted") == 15_000);
  }

  @Test
  void theForecastOfACropRestsOnNamedNumbersAndSaysThatItIsAdvice() {
    JsonPath forecast =
        when()
            .get("/api/v1/advice/hybridity/V-CROP")
            .then()
            .statusCode(200)
            .body("advice", containsString("advice, not a gate"))
            .body("inputs.source", everyItem(notNullValue()))
            .body("inputs.unit", everyItem(notNullValue()))
            .body("inputs.find { it.what.contains('females') }.likely", equalTo(0.005f))
            .body("inputs.find { it.what.contains('females') }.factIds", hasItem("v-inspection"))
            .body("inputs.findAll { !it.verified }.origin", everyItem(equalTo("ASSUMED")))
            .body("foreignPollen[0].source.subject", equalTo("source:V-RYE"))
            .body("foreignPollen[0].areaKnown", equalTo(true))
            .body("foreignPollen[0].byOutline", equalTo(true))
            .body("simplifications", hasItem("Wind has no direction."))
            .body("simplifications", everyItem(not(containsString("square"))))
            .body("foreignPollen[0].overlapPercent", equalTo(50.0f))
            .body("missing", hasItem(containsString("flowering of the pollinator")))
            .extract()
            .jsonPath();
    // 900 kg of 25 g at 96 % and 100 kg of 30 g at 90 %, by hand
    double female = 900 / 25.0 * 0.96;
    double pollinator = 100 / 30.0 * 0.90;
    assertThat(forecast.getDouble("inputs.find { it.what.contains('among the plants') }.likely"))
        .isCloseTo(pollinator / (pollinator + female), within(1e-6));
    double sum =
        forecast.getDouble("expected.percent")
            + forecast.getDouble("fromSheddersPercent")
            + forecast.getDouble("outcrossedPercent")
            + forecast.getDouble("onPollinatorPercent");
    assertThat(sum).isCloseTo(100, within(0.001));
    assertThat(
            when()
                .get("/api/v1/advice/hybridity/V-CROP")
                .jsonPath()
                .getMap("expected")
                .equals(forecast.getMap("expected")))
        .isTrue();
  }

  /** The source lies east of the crop. */
  @Test
  void aWindThatTheCallerAssumesMovesForeignPollenAndNoStanding() {
    String standing = when().get("/api/v1/crops/V-CROP").jsonPath().getString("gates");
    JsonPath calm = when().get("/api/v1/advice/hybridity/V-CROP").jsonPath();
    JsonPath windy =
        when()
            .get("/api/v1/advice/hybridity/V-CROP?windFrom=90&windRatio=3")
            .then()
            .statusCode(200)
            .body("inputs.findAll { it.source.contains('whoever asks') }.likely", hasItem(90.0f))
            .body("inputs.findAll { it.source.contains('whoever asks') }.likely", hasItem(3.0f))
            .body(
                "simplifications", hasItem(containsString("never changes the isolation distance")))
            .extract()
            .jsonPath();
    assertThat(windy.getDouble("outcrossedPercent"))
        .isGreaterThan(calm.getDouble("outcrossedPercent"));
    assertThat(windy.getDouble("foreignPollen[0].distanceM"))
        .isEqualTo(calm.getDouble("foreignPollen[0].distanceM"));
    assertThat(when().get("/api/v1/crops/V-CROP").jsonPath().getString("gates"))
        .isEqualTo(standing);
    problem(when().get("/api/v1/advice/hybridity/V-CROP?windFrom=90"), 400)
        .then()
        .body("problems.field", hasItem("windRatio"))
        .body("problems.limit", hasItem("windFrom and windRatio: both, or neither"));
    problem(when().get("/api/v1/advice/hybridity/V-CROP?windFrom=400&windRatio=0.5"), 400)
        .then()
        .body("problems.field", containsInAnyOrder("windFrom", "windRatio"));
  }

  @Test
  void resultsOfTheHarvestStandBesideTheForecast() {
    when()
        .get("/api/v1/advice/calibration?hybrid=HYB-V")
        .then()
        .statusCode(200)
        .body("rows", hasSize(1))
        .body("rows[0].crop.subject", equalTo("crop:V-CROP"))
        .body("rows[0].lot.subject", equalTo("lot:V-F1"))
        .body("rows[0].method", equalTo("MARKER"))
        .body("rows[0].observed.percent", equalTo(88.0f))
        .body("rows[0].fit", notNullValue())
        .body("results", equalTo(1))
        .body("crops", equalTo(1))
        .body("complete", equalTo(true));
    when()
        .get("/api/v1/advice/calibration?hybrid=HYB-NONE")
        .then()
        .statusCode(200)
        .body("rows", empty());
  }

  @Test
  void aMixtureIsReckonedFromFitStockOrRefusedWithReasons() {
    JsonPath mixture =
        ask("mixture", "{\"hybridId\": \"HYB-V\", \"massKg\": 100}")
            .then()
            .statusCode(200)
            .body("possible", equalTo(true))
            .body("parts.lot.subject", containsInAnyOrder("lot:V-SX", "lot:V-RP"))
            .body("shares.MASS.percent", equalTo(10.0f))
            .body("withinBreedersRatio", equalTo(true))
            .body("passedOver.lot.subject", hasItem("lot:V-OWED"))
            .body("passedOver.reason", hasItem(containsString("waits for evidence")))
            .extract()
            .jsonPath();
    assertThat(mixture.getDouble("parts.find { it.lot.subject == 'lot:V-RP' }.massKg"))
        .isCloseTo(10, within(1e-3));
    ask("mixture", "{\"hybridId\": \"HYB-V\", \"massKg\": 90000}")
        .then()
        .statusCode(200)
        .body("possible", equalTo(false))
        .body("sentence", containsString("runs out"))
        .body("parts", empty());
    ask("mixture", "{\"hybridId\": \"HYB-V\", \"massKg\": 10, \"femaleLots\": [\"V-RP\", \"NO\"]}")
        .then()
        .statusCode(200)
        .body("possible", equalTo(false))
        .body("passedOver.reason", hasItems(containsString("not seed of component SX-V")));
  }

  @Test
  void anInspectorIsToldWhetherToGoOn() {
    when()
        .get("/api/v1/advice/inspection/V-CROP?multiple=3")
        .then()
        .statusCode(200)
        .body("counts.quantity", hasItem("OFF_TYPES_BY_AREA"))
        .body("counts[0].unitsCounted", equalTo(15_000))
        .body("counts[0].decision", equalTo("ACCEPT"))
        .body("counts[0].source", containsString("EU"))
        .body("counts[0].sequential.producersRiskPercent", notNullValue())
        .body("counts[0].fixed.units", notNullValue());
    problem(when().get("/api/v1/advice/inspection/V-CROP?alpha=0.9&beta=x"), 400)
        .then()
        .body("problems.field", containsInAnyOrder("alpha", "beta"));
  }

  @Test
  void valuesAndContainersAreCompared() {
    ask(
            "compare",
            "{\"kind\": \"GERMINATION\", \"stated\": 90, \"found\": 83, \"foundSeeds\": 400}")
        .then()
        .statusCode(200)
        .body("[0].agrees", equalTo(false))
        .body("[0].tolerated", equalTo(6.0f))
        .body("[0].source", containsString("2005/328"))
        .body("[1].agrees", equalTo(true));
    ask("heterogeneity", "{\"attribute\": \"PURITY\", \"results\": [99.4, 96.0, 99.6, 98.7, 99.5]}")
        .then()
        .statusCode(200)
        .body("heterogeneous", equalTo(true))
        .body("hValue.critical", notNullValue())
        .body("source", containsString("2C"));
    ask("heterogeneity", "{\"attribute\": \"GERMINATION\", \"results\": [92, 94, 91, 90, 93, 70]}")
        .then()
        .statusCode(200)
        .body("heterogeneous", equalTo(true))
        .body("range.agrees", equalTo(false))
        .body("range.verified", equalTo(false));
  }

  @Test
  void containersOfAMixtureAreHeldAgainstEachOther() {
    ask(
            "heterogeneity",
            "{\"attribute\": \"BLEND_SHARE\", \"results\": [20, 80, 50, 50], \"examined\":"
                + " [1000, 1000, 1000, 1000]}")
        .then()
        .statusCode(200)
        .body("heterogeneous", equalTo(true))
        .body("containers", equalTo(4))
        .body("blend.share.percent", equalTo(5.0f))
        .body("blend.degreesOfFreedom", equalTo(3))
        .body("sentence", containsString("mix it again"));
    problem(ask("heterogeneity", "{\"attribute\": \"BLEND_SHARE\", \"results\": [2, 3]}"), 400)
        .then()
        .body("problems.field", hasItem("examined"));
    problem(
            ask(
                "heterogeneity",
                "{\"attribute\": \"BLEND_SHARE\", \"results\": [2, 3], \"examined\": [9]}"),
            400)
        .then()
        .body("detail", containsString("both counts"));
    problem(
            ask(
                "heterogeneity",
                "{\"attribute\": \"PURITY\", \"results\": [99, 98], \"examined\": [9, 9]}"),
            400)
        .then()
        .body("detail", containsString("BLEND_SHARE"));
  }

  @Test
  void badInputIsAProblemDocument() {
    problem(when().get("/api/v1/advice/hybridity/none-such"), 404);
    problem(ask("mixture", "{}"), 400)
        .then()
        .body("problems.field", containsInAnyOrder("hybridId", "massKg"));
    problem(ask("mixture", "{\"hybridId\": \"HYB-V\", \"massKg\": -1}"), 400)
        .then()
        .body("detail", containsString("above 0 kg"));
    problem(ask("mixture", "{\"hybridId\": \"HYB-V\", \"targetShare\": 1}"), 400)
        .then()
        .body("problems.field", hasItem("targetShare"));
    problem(ask("mixture", "{\"hybridId\": \"HYB-V\", \"massKg\": \"x\"}"), 400)
        .then()
        .body("problems.field", hasItem("massKg"))
        .body("problems.value", hasItem("'x'"))
        .body("problems.limit", hasItem("a number"))
        .body("problems.remedy", everyItem(not(containsString("java"))));
    problem(ask("mixture", "{\"hybridId\": \"HYB-NONE\", \"massKg\": 1}"), 404);
    problem(ask("compare", "{\"kind\": \"PURITY\", \"stated\": 101, \"found\": 99}"), 400);
    problem(ask("compare", "{\"kind\": \"GERMINATION\", \"stated\": 90.5}"), 400)
        .then()
        .body("problems.field", containsInAnyOrder("stated", "found", "foundSeeds"));
    problem(ask("heterogeneity", "{\"attribute\": \"PURITY\", \"results\": [null]}"), 400);
    problem(ask("heterogeneity", "{not json"), 400);
    problem(ask("heterogeneity", ""), 400);
  }

  @Test
  void allOfItStandsInTheOpenApiDocument() {
    given()
        .accept("application/json")
        .when()
        .get("/openapi")
        .then()
        .statusCode(200)
        .body("paths", hasKey("/api/v1/advice/hybridity/{cropId}"))
        .body(
            "paths.'/api/v1/advice/hybridity/{cropId}'.get.parameters.name",
            hasItems("windFrom", "windRatio"))
        .body("paths", hasKey("/api/v1/advice/nicking/{cropId}"))
        .body("paths", hasKey("/api/v1/advice/calibration"))
        .body("paths", hasKey("/api/v1/advice/mixture"))
        .body("paths", hasKey("/api/v1/advice/inspection/{cropId}"))
        .body("paths", hasKey("/api/v1/advice/compare"))
        .body("paths", hasKey("/api/v1/advice/heterogeneity"))
        .body("paths", not(hasKey("/internal/reports")));
  }

  /** Two tested lots, their mixture, the crop with its inspection and a neighbour, its harvest. */
  private static List<String> production() {
    return Stream.of(
            Stream.of(
                InventedFacts.fact(
                    "HybridDeclared",
                    "v-hybrid",
                    """
                    "hybridId": "HYB-V", "components": [\
                    {"componentId": "SX-V", "kind": "STERILE_SINGLE_CROSS"}, \
                    {"componentId": "RP-V", "kind": "RESTORER_POLLINATOR"}], \
                    "crosses": [{"seedComponentId": "HYB-V", "femaleComponentId": "SX-V", \
                    "pollenComponentId": "RP-V"}], "pollinatorSharePercent": 10.0, \
                    "shareBasis": "MASS", "tolerancePercentPoints": 1.0\
                    """),
                InventedFitLot.laboratory(),
                parentSeed("V-OWED", "SX-V", 1000)),
            Stream.of(parentSeed("V-SX", "SX-V", 2000)),
            tests("V-SX", 2000, 96, 2.5),
            Stream.of(parentSeed("V-RP", "RP-V", 300)),
            tests("V-RP", 300, 90, 3.0),
            crop())
        .flatMap(facts -> facts)
        .toList();
  }

  private static String parentSeed(String lotId, String componentId, double massKg) {
    return InventedFacts.lot("v-lot-" + lotId, lotId, componentId, massKg)
        .replace("HYB-T", "HYB-V");
  }

  private static Stream<String> tests(
      String lotId, double massKg, int normalOf100, double gramsOf100) {
    String ofLot =
        "\"lotId\": \"%s\", \"sampleId\": \"S-%s\", \"laboratoryId\": \"LAB-1\", "
            .formatted(lotId, lotId);
    return Stream.of(
        InventedFacts.fact(
            "Sampling",
            "v-sampling-" + lotId,
            """
            "sampleId": "S-%s", "lotId": "%s", "primarySamples": 10, "lotMassKg": %s, \
            "submittedSampleG": 1100.0, "samplerAccreditation": "LAB-1\"\
            """
                .formatted(lotId, lotId, massKg)),
        InventedFacts.fact(
            "GerminationTest",
            "v-germination-" + lotId,
            ofLot + four("{\"seeds\": 100, \"normalSeedlings\": %d}".formatted(normalOf100))),
        InventedFacts.fact(
            "KernelWeightTest",
            "v-weight-" + lotId,
            ofLot
                + "\"replicates\": [%s]"
                    .formatted(
                        String.join(
                            ", ",
                            Collections.nCopies(
                                8, "{\"kernels\": 100, \"massG\": %s}".formatted(gramsOf100))))),
        InventedFacts.fact(
            "PurityTest",
            "v-purity-" + lotId,
            ofLot + "\"pureSeedG\": 119.2, \"inertMatterG\": 0.7, \"otherSeedsG\": 0.1"),
        InventedFacts.fact(
            "MoistureTest", "v-moisture-" + lotId, ofLot + "\"moisturePercent\": 13.0"),
        InventedFacts.fact(
            "OtherSeedDetermination",
            "v-seeds-" + lotId,
            ofLot
                + """
                "sampleG": 500.0, "sampleNumber": 1, "otherCereals": 0, "otherPlants": 1, \
                "raphanusAndAgrostemma": 0, "wildOats": 0, "loliumTemulentum": 0, \
                "ergotBodies": 0\
                """));
  }

  private static String four(String replicate) {
    return "\"replicates\": [%1$s, %1$s, %1$s, %1$s]".formatted(replicate);
  }

  private static Stream<String> crop() {
    return Stream.of(
        InventedFacts.fact(
            "Blend",
            "v-blend",
            """
            "blendLotId": "V-MIX", "hybridId": "HYB-V", \
            "females": [{"lotId": "V-SX", "massKg": 900.0}], \
            "pollinators": [{"lotId": "V-RP", "massKg": 100.0}], \
            "targetPollinatorSharePercent": 10.0\
            """),
        InventedFacts.fact(
            "FieldCropDeclared",
            "v-crop",
            """
            "cropId": "V-CROP", "fieldId": "Far Field", "enterpriseId": "ENT-1", \
            "hybridId": "HYB-V", "role": "F1_MIXTURE", "seedComponentId": "HYB-V", \
            "pollenComponentId": "RP-V", "cropYear": 2024, "category": "CERTIFIED", \
            "rulebookId": "EU", "floweringFrom": "2024-06-01", "floweringTo": "2024-06-10", \
            "outline": [{"lon": 12.0, "lat": 52.0}, {"lon": 12.004, "lat": 52.0}, \
            {"lon": 12.004, "lat": 52.004}, {"lon": 12.0, "lat": 52.004}]\
            """),
        InventedFacts.fact(
            "PollenSourceSeen",
            "v-source",
            """
            "sourceId": "V-RYE", "kind": "RYE_CROP", "cropYear": 2024, \
            "firstSeenOn": "2024-05-20", "endedOn": "2024-06-05", \
            "outline": [{"lon": 12.012, "lat": 52.0}, {"lon": 12.014, "lat": 52.0}, \
            {"lon": 12.014, "lat": 52.002}, {"lon": 12.012, "lat": 52.002}]\
            """),
        InventedFacts.fact(
            "FieldInspection",
            "v-inspection",
            """
            "cropId": "V-CROP", "visit": 1, "bbchStage": 65, "part": "FEMALE", \
            "areaM2": 150.0, "offTypePlants": 1, "sheddingPlants": 5, \
            "plantsInReceptiveFlower": 1000\
            """),
        InventedFacts.fact(
            "Sowing",
            "v-sowing",
            """
            "cropId": "V-CROP", "sown": [{"lotId": "V-MIX", "massKg": 600.0}], "areaHa": 10.0\
            """),
        InventedFacts.fact(
            "Harvest",
            "v-harvest",
            """
            "cropId": "V-CROP", "lotId": "V-F1", "massKg": 30000.0\
            """),
        InventedFacts.fact(
            "PostControlResult",
            "v-marker",
            """
            "lotId": "V-F1", "method": "MARKER", "plotOrTestId": "M-1", "plantsExamined": 200, \
            "identityConfirmed": true, "offTypePlants": 0, "nonHybridPlants": 24\
            """));
  }

  private static Response ask(String what, String json) {
    return given().contentType("application/json").body(json).when().post("/api/v1/advice/" + what);
  }

  private static Response problem(Response answer, int status) {
    answer
        .then()
        .statusCode(status)
        .contentType("application/problem+json")
        .body("type", startsWith("/problems/"))
        .body("detail", notNullValue())
        .body("remedy", notNullValue());
    return answer;
  }

  private static String states(Response list, String lotId) {
    String state =
        list.jsonPath().getString("items.find { it.id == '%s' }?.state".formatted(lotId));
    return state == null ? "" : state;
  }
}
