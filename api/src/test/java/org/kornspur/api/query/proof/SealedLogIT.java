package org.kornspur.api.query.proof;

import static io.restassured.RestAssured.given;
import static io.restassured.RestAssured.when;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.kornspur.api.Waiting.until;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.verify.VerifyCommand;

/** The sealed log as an auditor meets it, with the real broker and processors behind it. */
@ExtendWith({EmptyMachine.class, AsPerson.class})
class SealedLogIT {
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Path keys = EmptyMachine.dataFolder().resolve("keys");

  @TempDir Path folder;

  @BeforeEach
  void sealALotWithACorrection() {
    until(() -> when().get("/health/ready").statusCode() == 200);
    post(InventedFacts.lot("seal-1", "SEAL-1", "SX", 500));
    post(InventedFacts.lot("seal-2", "SEAL-2", "SX", 700));
    post(
        InventedFacts.fact(
            "MoistureTest",
            "seal-3",
            """
            "lotId": "SEAL-1", "sampleId": "S-1", "moisturePercent": 13.5, \
            "laboratoryId": "LAB-1\"\
            """));
    until(
        () -> {
          JsonNode coverage = proof().path("coverage");
          return coverage.path("signed").asInt() == 2
              && coverage.path("chainedAndNotSignedYet").asInt() == 0;
        });
    until(
        () -> {
          JsonNode log = log();
          return log.path("signed").asLong() >= 3 && log.path("notSignedYet").asLong() == 0;
        });
  }

  @Test
  void aDossierProvesItselfWithoutAnyConnection() throws Exception {
    JsonNode proof = proof();
    assertThat(proof.path("subject").asText()).isEqualTo("lot:SEAL-1");
    Outcome outcome = verify(save(proof), "--trust", keys.toString());
    assertThat(outcome.out()).contains("lot:SEAL-1").contains("INTACT: 2 of 2");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.INTACT);
  }

  @Test
  void aFlippedByteInAnExportedFactIsNamed() throws Exception {
    ObjectNode proof = proof();
    ObjectNode fact = (ObjectNode) proof.at("/facts/1");
    byte[] wire = Base64.getDecoder().decode(fact.path("wire").asText());
    wire[10] ^= 1;
    fact.put("wire", Base64.getEncoder().encodeToString(wire));
    Outcome outcome = verify(save(proof), "--trust", keys.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(outcome.out())
        .contains("FACT_ALTERED A fact was altered: fact " + fact.path("factId").asText());
  }

  @Test
  void aFactDroppedFromAnExportIsNamed() throws Exception {
    ObjectNode proof = proof();
    JsonNode dropped = ((ArrayNode) proof.get("facts")).remove(0);
    Outcome outcome = verify(save(proof), "--trust", keys.toString());
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.TAMPERED);
    assertThat(outcome.out())
        .contains("FACT_REMOVED A fact was removed: fact " + dropped.path("factId").asText());
  }

  @Test
  void theRunningBrokerVerifies() throws Exception {
    String client = EmptyMachine.dataFolder().resolve(BrokerLogins.CLIENT_FILE).toString();
    Outcome outcome = verify("--client", client, "--trust", keys.toString());
    assertThat(outcome.out()).contains("INTACT");
    assertThat(outcome.exitCode()).isEqualTo(VerifyCommand.INTACT);
  }

  @Test
  void anAuditorSeesHowFarTheLogIsSigned() throws Exception {
    JsonNode log = log();
    assertThat(log.path("signed").asLong()).isBetween(3L, log.path("chained").asLong());
    assertThat(log.path("notSignedYet").asLong())
        .isEqualTo(log.path("chained").asLong() - log.path("signed").asLong());
    assertThat(keys.resolve(TrustedKeys.fileName(log.path("keyId").asText()))).exists();
    assertThat(log.at("/publicKeys/0/publicKey").asText()).startsWith("-----BEGIN PUBLIC KEY");
    assertThat(log.path("partitions")).hasSize(2);

    for (JsonNode partition : log.path("partitions")) {
      long checkpoints = partition.at("/newestCheckpoint/number").asLong();
      assertThat(listed(partition.path("partition").asInt())).isGreaterThanOrEqualTo(checkpoints);
    }
    given()
        .queryParam("partition", 99)
        .get("/api/v1/log/checkpoints")
        .then()
        .statusCode(404)
        .body("detail", containsString("no partition 99"));
    given().queryParam("from", "x").get("/api/v1/log/checkpoints").then().statusCode(400);
    when().get("/api/v1/lots/NO-SUCH/proof").then().statusCode(404);
  }

  /** How many checkpoints are handed out, in as many answers as it takes. */
  private static long listed(int partition) {
    long listed = 0;
    JsonNode some;
    do {
      some =
          read(
              given()
                  .queryParam("partition", partition)
                  .queryParam("from", listed + 1)
                  .get("/api/v1/log/checkpoints")
                  .asByteArray());
      listed += some.size();
    } while (!some.isEmpty());
    return listed;
  }

  private static JsonNode log() {
    return read(when().get("/api/v1/log").asByteArray());
  }

  private static void post(String fact) {
    given().contentType("application/json").body(fact).post("/api/v1/facts");
  }

  private static ObjectNode proof() {
    return (ObjectNode) read(when().get("/api/v1/lots/SEAL-1/proof").asByteArray());
  }

  private static JsonNode read(byte[] body) {
    try {
      return JSON.readTree(body);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private String save(JsonNode proof) throws Exception {
    return Files.write(folder.resolve("proof.json"), JSON.writeValueAsBytes(proof)).toString();
  }

  private record Outcome(int exitCode, String out) {}

  private static Outcome verify(String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PrintStream both = new PrintStream(out, true, StandardCharsets.UTF_8);
    int exitCode = VerifyCommand.run(both, both, List.of(arguments));
    return new Outcome(exitCode, out.toString(StandardCharsets.UTF_8));
  }
}
