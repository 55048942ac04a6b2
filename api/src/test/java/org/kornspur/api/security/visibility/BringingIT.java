package org.kornspur.api.security.visibility;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.Waiting;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.intake.QuarantineEntries;

/** Who may bring which fact, about what, and in whose name. Every fact is invented. */
@ExtendWith(EmptyMachine.class)
class BringingIT {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String NOT_YOURS = "/problems/not-yours-to-bring";

  private final URI root = URI.create(EmptyMachine.root());

  private Asking asking;

  @BeforeEach
  void waitUntilReady() throws Exception {
    asking = new Asking(root.toString());
    Waiting.until(() -> asking.ask("GET", "/health/ready", Map.of(), "").status() == 200);
  }

  @Test
  void aMultiplierBringsTheFactsOfItsOwnCropFromDeclarationToDispatch() throws Exception {
    String west = TestPeople.WEST;
    accepted(west, crop(west, "bw-crop", "BW-C", "ENT-MULT-WEST"));
    accepted(west, harvest(west, "bw-harvest", "BW-C", "BW-R"));
    accepted(west, dispatch(west, "bw-dispatch", "BW-R"));
    until(west, "/api/v1/lots/BW-R");
    accepted(west, harvest(west, "bw-harvest", "BW-C", "BW-R"));
  }

  @Test
  void seedOfAnotherIsRefusedInTheWordsForSeedThatIsNotKnown() throws Exception {
    accepted(TestPeople.EAST, crop(TestPeople.EAST, "be-crop", "BE-C", "ENT-MULT-EAST"));
    accepted(TestPeople.EAST, harvest(TestPeople.EAST, "be-harvest", "BE-C", "BE-R"));
    until(TestPeople.EAST, "/api/v1/lots/BE-R");
    String west = TestPeople.WEST;

    String foreign = refused(west, dispatch(west, "bw-1", "BE-R"), "lotId");
    String unknown = refused(west, dispatch(west, "bw-1", "XX-R"), "lotId");
    assertThat(foreign.replace("BE-R", "XX-R")).isEqualTo(unknown);
    String foreignCrop = refused(west, harvest(west, "bw-2", "BE-C", "BW-R9"), "cropId");
    String unknownCrop = refused(west, harvest(west, "bw-2", "XX-C", "BW-R9"), "cropId");
    assertThat(foreignCrop.replace("BE-C", "XX-C")).isEqualTo(unknownCrop);
    refused(west, crop(west, "bw-3", "BW-C3", "ENT-MULT-EAST"), "enterpriseId");
    refused(west, crop(west, "bw-4", "BE-C", "ENT-MULT-WEST"), "cropId");

    String correction = "{\"supersedes\": \"%s\", \"reason\": \"typing error\"}";
    accepted(west, crop(west, "bw5-crop", "BW-C5", "ENT-MULT-WEST"));
    String known =
        refused(
            west,
            harvest(west, "bw-5", "BW-C5", "BW-R5")
                .replace(
                    "\"correction\": null",
                    "\"correction\": " + correction.formatted(TestPeople.EAST + "-be-harvest")),
            "header.correction.supersedes");
    String none =
        refused(
            west,
            harvest(west, "bw-5", "BW-C5", "BW-R5")
                .replace(
                    "\"correction\": null",
                    "\"correction\": " + correction.formatted("xx-harvest")),
            "header.correction.supersedes");
    assertThat(known.replace(TestPeople.EAST + "-be-harvest", "xx-harvest")).isEqualTo(none);

    // the very fact of another: its content is neither told nor confirmed
    refused(west, harvest(west, "be-harvest", "BE-C", "BE-R"), "cropId");
    assertThat(asking.get(west, "/api/v1/lots/BE-R").status()).isEqualTo(404);
  }

  @Test
  void thatAnIdIsTakenIsToldOnlyOfAFactThatNothingElseSpeaksAgainst() throws Exception {
    String east = TestPeople.EAST;
    String west = TestPeople.WEST;
    accepted(east, crop(east, "bt-crop", "BT-C", "ENT-MULT-EAST"));
    accepted(east, harvest(east, "bt-harvest", "BT-C", "BT-R"));
    until(east, "/api/v1/lots/BT-R");
    accepted(west, crop(west, "bt-own-crop", "BT-OC", "ENT-MULT-WEST"));
    accepted(west, harvest(west, "bt-own", "BT-OC", "BT-OR"));
    until(west, "/api/v1/lots/BT-OR");

    assertThat(refused(west, harvest(west, "bt-1", "BT-OC", "BT-R"), "lotId"))
        .contains("an id that you may give");
    List<String> neverGoIn =
        List.of(
            harvest(west, "bt-2", "XX-C", "%s"),
            crop(west, "bt-3", "%s", "ENT-MULT-EAST"),
            harvest(west, "bt-4", "BT-OC", "%s")
                .replace(
                    "\"correction\": null",
                    "\"correction\": {\"supersedes\": \"xx\", \"reason\": \"guessing\"}"),
            harvest(west, "bt-5", "BT-OC", "%s").replace("\"2024-05-02", "\"2924-05-02"),
            harvest(west, "bt-own", "BT-OC", "%s"));
    for (String guess : neverGoIn) {
      for (String taken : List.of("BT-R", "BT-C")) {
        Asking.Answer known = asking.post(west, "/api/v1/facts", guess.formatted(taken));
        Asking.Answer none = asking.post(west, "/api/v1/facts", guess.formatted("XX-NONE"));
        assertThat(known.status()).as(known.body()).isGreaterThanOrEqualTo(400);
        assertThat(known.body().replace(taken, "XX-NONE")).isEqualTo(none.body());
      }
    }
    String twoOfOneId =
        "["
            + harvest(west, "bt-6", "BT-OC", "BT-OR6")
            + ","
            + harvest(west, "bt-6", "BT-OC", "%s")
            + "]";
    assertThat(secondProblem(west, twoOfOneId.formatted("BT-R")))
        .isEqualTo(secondProblem(west, twoOfOneId.formatted("XX-NONE")))
        .contains("header.factId");
  }

  private String secondProblem(String person, String facts) throws Exception {
    JsonNode batch = JSON.readTree(asking.post(person, "/api/v1/facts", facts).body());
    return batch.path("items").get(1).path("problems").toString();
  }

  @Test
  void aFactIsBroughtInOnesOwnNameUnlessQualityCopiesItFromPaper() throws Exception {
    JsonNode problem =
        JSON.readTree(
            refused(
                TestPeople.WEST,
                crop("somebody-else", "bn-1", "BN-1", "ENT-MULT-WEST"),
                "header.recordedBy"));
    assertThat(problem.path("problems").get(0).path("value").asText()).isEqualTo("'somebody-else'");
    assertThat(problem.path("problems").get(0).path("limit").asText()).contains(TestPeople.WEST);
    assertThat(problem.path("problems").get(0).path("remedy").asText()).contains("quality");
    accepted("quality", crop("somebody-else", "bn-1", "BN-1", "ENT-MULT-WEST"));
  }

  @Test
  void aGrowerGrantsHimselfNoException() throws Exception {
    String west = TestPeople.WEST;
    String crop = crop(west, "bx-crop", "BX-C", "ENT-MULT-WEST");
    String shielded = crop.replaceFirst("\\{", "{\"shieldAccepted\": true, ");
    String small = crop.replaceFirst("\\{", "{\"smallAreaAccepted\": true, ");

    assertThat(refused(west, shielded, "shieldAccepted")).contains("certification authority");
    refused(west, small, "smallAreaAccepted");
    accepted("quality", shielded);
  }

  @Test
  void aFactIsCorrectedByOneOfItsKind() throws Exception {
    String west = TestPeople.WEST;
    accepted(west, crop(west, "bk-crop", "BK-C", "ENT-MULT-WEST"));
    accepted(west, harvest(west, "bk-harvest", "BK-C", "BK-R"));
    until(west, "/api/v1/lots/BK-R");

    assertThat(
            refused(
                west,
                dispatch(west, "bk-dispatch", "BK-R")
                    .replace(
                        "\"correction\": null",
                        "\"correction\": {\"supersedes\": \"%s-bk-harvest\", \"reason\": \"x\"}"
                            .formatted(west)),
                "header.correction.supersedes"))
        .contains("of another kind");
  }

  @Test
  void growersAndLaboratoriesGiveIdsThatNobodyElseMayTake() throws Exception {
    String west = TestPeople.WEST;
    String fact = crop(west, "bi-1", "BI-C", "ENT-MULT-WEST");
    String own = west + "-bi-1";
    for (String taken : List.of("harvest-BI-R", "multiplier-east-1", west)) {
      String problem = refused(west, fact.replace(own, taken), "header.factId");
      assertThat(problem).contains("a UUID", "ENT-MULT-WEST-", west + "-");
    }
    refused(
        "laboratory",
        moisture("bi-2", "BI-R", "BI-S", "ENT-LAB-ONE").replace("laboratory-bi-2", "bi-2"),
        "header.factId");
    accepted(west, fact);
    accepted(
        west,
        crop(west, "bi-3", "BI-C3", "ENT-MULT-WEST").replace(west + "-bi-3", "ENT-MULT-WEST:3"));
    accepted(
        west,
        crop(west, "bi-4", "BI-C4", "ENT-MULT-WEST")
            .replace(west + "-bi-4", "0198c7e4-0000-4000-8000-00000000b104"));
    accepted(
        "inspector", inspection("inspector", "bi-5", "BI-C").replace("inspector-bi-5", "bi-5"));
  }

  @Test
  void ofTwoGrowersWhoWantOneLotAtOneMomentOneGetsIt() throws Exception {
    String west = TestPeople.WEST;
    String east = TestPeople.EAST;
    for (int round = 0; round < 5; round++) {
      String crop = "BR-C%s-" + round;
      accepted(west, crop(west, "br-w" + round, crop.formatted("W"), "ENT-MULT-WEST"));
      accepted(east, crop(east, "br-e" + round, crop.formatted("E"), "ENT-MULT-EAST"));
      String lot = "BR-R-" + round;
      String wests = harvest(west, "br-wh" + round, crop.formatted("W"), lot);
      String easts = harvest(east, "br-eh" + round, crop.formatted("E"), lot);
      CompletableFuture<Integer> first = CompletableFuture.supplyAsync(() -> status(west, wests));
      CompletableFuture<Integer> second = CompletableFuture.supplyAsync(() -> status(east, easts));
      assertThat(List.of(first.get(), second.get())).containsExactlyInAnyOrder(202, 403);
    }
  }

  private int status(String person, String fact) {
    try {
      return asking.post(person, "/api/v1/facts", fact).status();
    } catch (Exception failed) {
      throw new IllegalStateException(failed);
    }
  }

  @Test
  void nobodySaysItselfWhoBroughtAFact() throws Exception {
    String forged =
        crop("quality", "bs-1", "BS-C", "ENT-MULT-WEST")
            .replace(
                "\"correction\": null",
                "\"correction\": null, \"submission\": {\"personId\": \"quality\", \"role\":"
                    + " \"QUALITY\", \"enterpriseId\": null, \"keyId\": \"\", \"signature\":"
                    + " \"\"}");
    Asking.Answer answer = asking.post("quality", "/api/v1/facts", forged);

    assertThat(answer.status()).isEqualTo(422);
    assertThat(JSON.readTree(answer.body()).path("problems").get(0).path("field").asText())
        .isEqualTo("header.submission");
  }

  @Test
  void aGrowerTakesBackNoReportOfPollenThatAnotherMade() throws Exception {
    String west = TestPeople.WEST;
    accepted(west, crop(west, "bp-1", "BP-C", "ENT-MULT-WEST"));
    accepted("inspector", source("inspector", "bp-2", "BP-S"));
    until(west, "/api/v1/pollen-sources/BP-S");
    until(west, "/api/v1/crops/BP-C");

    refused(
        west,
        fact(
            "Withdrawal",
            "bp-3",
            west,
            "\"withdrawnFactId\": \"inspector-bp-2\", \"reason\": \"I saw nothing\""),
        "withdrawnFactId");
  }

  private static String source(String by, String factId, String sourceId) {
    return fact(
        "PollenSourceSeen",
        factId,
        by,
        """
        "sourceId": "%s", "kind": "RYE_CROP", "cropYear": 2024, "outline": \
        [{"lon": 30.004, "lat": 53.0}, {"lon": 30.005, "lat": 53.0}, {"lon": 30.005, "lat": 53.001}], \
        "firstSeenOn": "2024-05-01\"\
        """
            .formatted(sourceId));
  }

  @Test
  void eachRoleBringsItsOwnKindOfFact() throws Exception {
    refused(TestPeople.WEST, inspection(TestPeople.WEST, "bk-1", "BRK-C"), "type");
    refused("inspector", harvest("inspector", "bk-2", "BRK-C", "BRK-R"), "type");
    refused("laboratory", inspection("laboratory", "bk-3", "BRK-C"), "type");
    accepted("inspector", inspection("inspector", "bk-4", "BRK-C"));
  }

  @Test
  void aLaboratoryTestsTheSamplesThatAreAssignedToIt() throws Exception {
    accepted("quality", sampling("bl-1", "BL-R", "BL-S1", "\"ENT-LAB-ONE\""));
    accepted("quality", sampling("bl-2", "BL-R", "BL-S2", "\"ENT-LAB-TWO\""));
    accepted("quality", sampling("bl-3", "BL-R", "BL-S3", "null"));
    until("quality", "/api/v1/lots/BL-R");
    until("laboratory", "/api/v1/lots/BL-R/facts");

    accepted("laboratory", moisture("bl-4", "BL-R", "BL-S1", "ENT-LAB-ONE"));
    refused("laboratory", moisture("bl-5", "BL-R", "BL-S1", "ENT-LAB-TWO"), "laboratoryId");
    String assignedElsewhere =
        refused("laboratory", moisture("bl-6", "BL-R", "BL-S2", "ENT-LAB-ONE"), "sampleId");
    String unknown =
        refused("laboratory", moisture("bl-6", "BL-R", "XX-S2", "ENT-LAB-ONE"), "sampleId");
    assertThat(assignedElsewhere.replace("BL-S2", "XX-S2")).isEqualTo(unknown);
    refused("laboratory", moisture("bl-7", "BL-R", "BL-S3", "ENT-LAB-ONE"), "sampleId");
  }

  @Test
  void ofManyFactsTheForeignOnesAreRefusedAndTheOthersGoIn() throws Exception {
    String west = TestPeople.WEST;
    String both =
        "["
            + crop(west, "bm-1", "BM-C", "ENT-MULT-WEST")
            + ","
            + harvest(west, "bm-2", "BM-C", "BM-R")
            + ","
            + dispatch(west, "bm-3", "XX-R")
            + "]";
    Asking.Answer answer = asking.post(west, "/api/v1/facts", both);
    assertThat(answer.status()).isEqualTo(207);
    JsonNode batch = JSON.readTree(answer.body());
    assertThat(batch.path("accepted").asInt()).isEqualTo(2);
    assertThat(batch.path("items").get(2).path("outcome").asText()).isEqualTo("refused");
    assertThat(batch.path("items").get(2).has("quarantine")).as("it is not kept").isFalse();
  }

  @Test
  void whoSentRefusedInputSeesItAndOtherGrowersDoNot() throws Exception {
    Asking.Answer broken =
        asking.post(
            TestPeople.WEST, "/api/v1/facts", "{\"type\": \"Harvest\", \"secret\": \"bq\"}");
    assertThat(broken.status()).isEqualTo(422);
    JsonNode mine = untilHeld(TestPeople.WEST);
    String entry = mine.path("items").get(0).path("entryId").asText();
    assertThat(asking.get(TestPeople.WEST, "/api/v1/quarantine/" + entry).status()).isEqualTo(200);
    assertThat(asking.get("auditor", "/api/v1/quarantine/" + entry).status()).isEqualTo(200);
    Asking.Answer foreign = asking.get(TestPeople.EAST, "/api/v1/quarantine/" + entry);
    Asking.Answer none = asking.get(TestPeople.EAST, "/api/v1/quarantine/" + "0".repeat(64));
    assertThat(foreign.status()).isEqualTo(404);
    assertThat(foreign.body().replace(entry, "0".repeat(64))).isEqualTo(none.body());
    assertThat(
            JSON.readTree(asking.get(TestPeople.EAST, "/api/v1/quarantine").body())
                .path("items")
                .findValuesAsText("entryId"))
        .doesNotContain(entry);
    assertThat(
            asking
                .post(
                    TestPeople.EAST,
                    "/api/v1/quarantine/" + entry + "/discard",
                    "{\"reason\": \"not mine\"}")
                .status())
        .isEqualTo(404);
  }

  @Test
  void whoSendsWhatAnotherSentSeesItAndTheFirstKeepsItsPlace() throws Exception {
    String first = TestPeople.of(Role.MULTIPLIER);
    String bytes = "{\"type\": \"Harvest\", \"secret\": \"sent twice\"}";
    String entryId = QuarantineEntries.entryId(null, bytes.getBytes(StandardCharsets.UTF_8));
    String path = "/api/v1/quarantine/" + entryId;
    asking.post(first, "/api/v1/facts", bytes);
    until(first, path);
    String kept = asking.get("auditor", path).body();

    asking.post(TestPeople.EAST, "/api/v1/facts", bytes);
    until(TestPeople.EAST, path);
    assertThat(asking.get("auditor", path).body()).isEqualTo(kept);
    assertThat(asking.get(first, path).body()).isEqualTo(kept);
    assertThat(asking.post(first, path + "/discard", "{\"reason\": \"mine\"}").status())
        .isEqualTo(200);
    untilDecided(path);
    asking.post(TestPeople.EAST, "/api/v1/facts", bytes);
    asking.post("quality", "/api/v1/facts", bytes);
    JsonNode decided = JSON.readTree(asking.get("auditor", path).body());
    assertThat(decided.path("state").asText()).isEqualTo("DISCARDED");
    assertThat(decided.path("decidedBy").asText()).isEqualTo(first);
    assertThat(asking.get("auditor", "/quarantine/" + entryId).body())
        .contains("<dt>Decided by</dt><dd>" + first, "<dt>Reason</dt><dd>mine");
  }

  private void untilDecided(String path) {
    Waiting.until(() -> asking.get("auditor", path).body().contains("DISCARDED"));
  }

  private JsonNode untilHeld(String person) throws Exception {
    Waiting.until(() -> quarantine(person).path("total").asInt() > 0);
    return quarantine(person);
  }

  private JsonNode quarantine(String person) throws Exception {
    return JSON.readTree(asking.get(person, "/api/v1/quarantine").body());
  }

  private void until(String person, String path) {
    Waiting.until(() -> asking.get(person, path).status() == 200);
  }

  private void accepted(String person, String fact) throws Exception {
    Asking.Answer answer = asking.post(person, "/api/v1/facts", fact);
    assertThat(answer.status()).as(answer.body()).isEqualTo(202);
  }

  private String refused(String person, String fact, String field) throws Exception {
    Asking.Answer answer = asking.post(person, "/api/v1/facts", fact);
    assertThat(answer.status()).as(answer.body()).isEqualTo(403);
    JsonNode problem = JSON.readTree(answer.body());
    assertThat(problem.path("type").asText()).isEqualTo(NOT_YOURS);
    assertThat(problem.path("problems").get(0).path("field").asText()).isEqualTo(field);
    return answer.body();
  }

  /** Its id begins with who recorded it, as those of growers and laboratories must. */
  private static String fact(String type, String factId, String recordedBy, String fields) {
    return """
    {"type": "%s", "header": {"factId": "%s", "recordedBy": "%s", \
    "happenedAt": "2024-05-02T10:00:00Z", "recordedAt": "2024-05-02T11:00:00Z", \
    "sourceDocument": "invented", "correction": null}, %s}\
    """
        .formatted(type, recordedBy + "-" + factId, recordedBy, fields);
  }

  private static String crop(String by, String factId, String cropId, String enterpriseId) {
    return fact(
        "FieldCropDeclared",
        factId,
        by,
        """
        "cropId": "%s", "fieldId": "F", "enterpriseId": "%s", "hybridId": "HYB-B", \
        "role": "POLLINATOR", "seedComponentId": "PB", "pollenComponentId": "PB", \
        "cropYear": 2024, "category": "BASIC", "rulebookId": "EU", "outline": \
        [{"lon": 30.0, "lat": 53.0}, {"lon": 30.003, "lat": 53.0}, {"lon": 30.003, "lat": 53.002}]\
        """
            .formatted(cropId, enterpriseId));
  }

  private static String harvest(String by, String factId, String cropId, String lotId) {
    return fact(
        "Harvest",
        factId,
        by,
        "\"cropId\": \"%s\", \"lotId\": \"%s\", \"massKg\": 1000.0".formatted(cropId, lotId));
  }

  private static String dispatch(String by, String factId, String lotId) {
    return fact(
        "Dispatch",
        factId,
        by,
        "\"lotId\": \"%s\", \"customerId\": \"CUST-B\", \"massKg\": 10.0, \"labelNumbers\": []"
            .formatted(lotId));
  }

  private static String inspection(String by, String factId, String cropId) {
    return fact(
        "FieldInspection",
        factId,
        by,
        """
        "cropId": "%s", "visit": 1, "bbchStage": 65, "part": "WHOLE_CROP", "areaM2": 150.0, \
        "offTypePlants": 0\
        """
            .formatted(cropId));
  }

  private static String sampling(String factId, String lotId, String sampleId, String laboratory) {
    return fact(
        "Sampling",
        factId,
        "sampler-01",
        """
        "sampleId": "%s", "lotId": "%s", "primarySamples": 30, "lotMassKg": 1000.0, \
        "submittedSampleG": 1200.0, "samplerAccreditation": "INV-1", "laboratoryId": %s\
        """
            .formatted(sampleId, lotId, laboratory));
  }

  private static String moisture(
      String factId, String lotId, String sampleId, String laboratoryId) {
    return fact(
        "MoistureTest",
        factId,
        "laboratory",
        """
        "lotId": "%s", "sampleId": "%s", "moisturePercent": 13.0, "laboratoryId": "%s\"\
        """
            .formatted(lotId, sampleId, laboratoryId));
  }
}
