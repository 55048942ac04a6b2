package org.kornspur.api.export.paper;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.restassured.http.ContentType;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.command.act.InventedFitLot;
import org.kornspur.api.command.act.SettledSeal;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * What a printed dossier says of signatures and of the log, held against 21 CFR 11.50:
 *
 * <pre>
 * (a) Signed electronic records shall contain information associated with the signing that clearly
 *     indicates all of the following: (1) The printed name of the signer; (2) The date and time when
 *     the signature was executed; and (3) The meaning (such as review, approval, responsibility, or
 *     authorship) associated with the signature.
 * (b) The items identified in paragraphs (a)(1), (a)(2), and (a)(3) of this section ... shall be
 *     included as part of any human readable form of the electronic record (such as electronic
 *     display or printout).
 * </pre>
 *
 * <p>Source: Code of Federal Regulations, title 21, section 11.50, from memory. Broker, processors,
 * people file and keys are the real ones.
 */
@ExtendWith(EmptyMachine.class)
class SignedDossierIT {
  private static final Path PAPERS = Path.of("target", "papers");
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String QUALITY = TestPeople.of(Role.QUALITY);
  private static final String AUDITOR = TestPeople.of(Role.AUDITOR);
  private static final String MULTIPLIER = TestPeople.of(Role.MULTIPLIER);

  @TempDir Path folder;

  @BeforeEach
  void waitUntilReady() {
    until(() -> given().get("/health/ready").statusCode() == 200);
  }

  @Test
  void theReleaseIsPrintedWithNameTimeMeaningAndTheCheckpointOverIt() throws Exception {
    bringFitLot("P-1");
    sign("P-1", "not the password").then().statusCode(403);
    Response release = sign("P-1", TestPeople.password());
    release.then().statusCode(201);
    ZonedDateTime signedAt =
        Instant.parse(release.jsonPath().getString("signedAt")).atZone(ZoneId.systemDefault());
    until(() -> as(AUDITOR).get("/api/v1/lots/P-1/acts").jsonPath().getList("$").size() == 2);
    untilSigned("P-1");

    Paper english = print(AUDITOR, "P-1", "en");
    assertThat(english.lines())
        // 21 CFR 11.50(a)(1) and (b): the printed name, in the print
        .contains("Printed name Invented quality", "Person quality")
        // 21 CFR 11.50(a)(2) and (b): date and time, with the zone they are in
        .contains("Signed on " + moment(signedAt, "d MMM yyyy, HH:mm:ss", Locale.UK))
        // 21 CFR 11.50(a)(3) and (b): the meaning of the signature
        .contains("Meaning of the signature responsibility for the release")
        .contains("Reason all evidence is there", "Refused to person quality")
        .contains("Signature The signature verifies. The lot still is exactly what was sealed.");
    assertThat(english.text()).contains("Release: refused, nothing was signed");
    // its facts were recorded in 2024, as invented facts are
    assertThat(english.text()).containsPattern("(?s)received .{10,45} days later");

    JsonNode covering = checkpointOver("P-1", release.jsonPath().getString("actId"));
    assertThat(english.lines())
        .contains("Partition " + covering.get("partition").asText())
        .contains("Hash of that link (SHA-256) " + covering.get("link").asText())
        .contains("Key " + covering.get("keyId").asText());
    assertThat(english.text())
        .contains(
            "Checkpoint "
                + covering.get("number").asText()
                + " signs the chain up to link "
                + covering.get("sequence").asText()
                + " (offset "
                + covering.get("offset").asText()
                + "); signed on "
                + moment(
                    Instant.parse(covering.get("signedAt").asText()).atZone(ZoneId.systemDefault()),
                    "d MMM yyyy, HH:mm:ss",
                    Locale.UK))
        .contains("Signed checkpoints cover each of the 8 facts of this dossier.")
        .contains("/api/v1/lots/P-1/proof > proof.json")
        .contains("java -jar ingest.jar verify proof.json --trust KEYS");
    List<JsonNode> enclosed = english.checkpoints();
    assertThat(enclosed).contains(covering);
    assertThat(english.lines().stream().filter(line -> line.matches("Partition \\d+")))
        .hasSameSizeAs(enclosed);

    Paper german = print(AUDITOR, "P-1", "de");
    assertThat(german.lines())
        .contains("Name Invented quality")
        .contains("Unterschrieben am " + moment(signedAt, "dd.MM.yyyy, HH:mm:ss", Locale.GERMANY))
        .contains("Bedeutung der Unterschrift responsibility for the release")
        .contains("Hash dieses Glieds (SHA-256) " + covering.get("link").asText());
  }

  @Test
  void onlyAReleasedLotHasLabels() throws Exception {
    bringFitLot("P-LABEL");
    as(QUALITY).get("/api/v1/lots/P-LABEL/labels.pdf").then().statusCode(409);
    sign("P-LABEL", TestPeople.password()).then().statusCode(201);
    until(() -> as(QUALITY).get("/api/v1/lots/P-LABEL/labels.pdf").statusCode() == 200);

    byte[] sheet =
        as(QUALITY).get("/api/v1/lots/P-LABEL/labels.pdf?copies=10").then().extract().asByteArray();
    Files.createDirectories(PAPERS);
    Files.write(PAPERS.resolve("labels.pdf"), sheet);
    try (PDDocument pdf = Loader.loadPDF(sheet)) {
      assertThat(pdf.getNumberOfPages()).isEqualTo(2);
      String text = new PDFTextStripper().getText(pdf);
      assertThat(text.split("Not an official label", -1)).hasSize(1 + 10);
      assertThat(text).contains("P-LABEL", "Secale cereale");
      assertThat(pdf.getPage(0).getResources().getXObjectNames()).isNotEmpty();
    }
    as(QUALITY).get("/api/v1/lots/P-LABEL/labels.pdf?copies=401").then().statusCode(400);
  }

  /** The file in the PDF is one that the command of the paper takes. */
  @Test
  void theEnclosedCheckpointsVerifyTheLog() throws Exception {
    bringFitLot("P-2");
    untilSigned("P-2");
    Paper paper = print(AUDITOR, "P-2", "en");
    Path checkpoints = Files.write(folder.resolve("checkpoints.json"), paper.enclosedCheckpoints());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PrintStream both = new PrintStream(out, true, StandardCharsets.UTF_8);
    int exitCode =
        VerifyCommand.run(
            both,
            both,
            List.of(
                "--client",
                EmptyMachine.dataFolder().resolve(BrokerLogins.CLIENT_FILE).toString(),
                "--trust",
                EmptyMachine.dataFolder().resolve("keys").toString(),
                "--checkpoints",
                checkpoints.toString()));
    assertThat(exitCode).as(out.toString(StandardCharsets.UTF_8)).isEqualTo(VerifyCommand.INTACT);
  }

  @Test
  void whoSeesTheNameOnThePageSeesItOnPaperAndAForgottenOneNowhere() throws Exception {
    bringFitLot("P-3");
    sign("P-3", TestPeople.password()).then().statusCode(201);
    untilSigned("P-3");

    Paper multipliers = print(MULTIPLIER, "P-3", "en");
    assertThat(as(MULTIPLIER).get("/api/v1/lots/P-3/acts").asString()).contains("Invented quality");
    assertThat(multipliers.lines()).contains("Printed name Invented quality");
    as(MULTIPLIER).get("/api/v1/log").then().statusCode(403);
    assertThat(multipliers.text()).contains("shown to those who may read the log");
    assertThat(multipliers.lines()).noneMatch(line -> line.startsWith("Partition "));
    assertThat(multipliers.checkpoints()).isEmpty();

    as(TestPeople.of(Role.ADMINISTRATOR))
        .delete("/api/v1/people/quality/name")
        .then()
        .statusCode(204);
    until(
        () ->
            as(AUDITOR)
                .get("/api/v1/lots/P-3/acts")
                .jsonPath()
                .getBoolean("find { !it.refused }.nameForgotten"));
    Paper forgotten = print(AUDITOR, "P-3", "en");
    assertThat(forgotten.lines()).contains("Printed name name forgotten", "Person quality");
    assertThat(forgotten.text())
        .contains("The signature verifies.")
        .doesNotContain("Invented quality");
    assertThat(print(AUDITOR, "P-3", "de").lines())
        .contains("Name Name vergessen", "Person quality");
  }

  /** What has no room is counted, and nothing makes a third page. */
  @Test
  void aLotWithManyCustomersStillHasTwoPages() throws Exception {
    bringFitLot("P-4");
    int customers = 40;
    String dispatches =
        IntStream.range(0, customers)
            .mapToObj(
                i ->
                    """
                    {"type": "Dispatch", "header": {"factId": "P-4-dispatch-%1$d", \
                    "recordedBy": "p-01", "happenedAt": "2024-09-03T10:00:00Z", \
                    "recordedAt": "2024-09-03T10:00:00Z", "sourceDocument": "invented", \
                    "correction": null}, "lotId": "P-4", "massKg": %2$d, \
                    "customerId": "ENT-CUSTOMER-WITH-A-NAME-THAT-IS-AS-LONG-AS-IT-MAY-BE-%1$d", \
                    "labelNumbers": ["INV-%1$d"]}\
                    """
                        .formatted(i, 1 + i % 10))
            .collect(Collectors.joining(", ", "[", "]"));
    as("everything")
        .contentType(ContentType.JSON)
        .body(dispatches)
        .post("/api/v1/facts")
        .then()
        .statusCode(200);
    until(
        () ->
            as(AUDITOR).get("/api/v1/lots/P-4/recall-drill").jsonPath().getList("customers").size()
                == customers);
    byte[] pdf = as(AUDITOR).get("/api/v1/lots/P-4/dossier.pdf").asByteArray();
    Files.createDirectories(PAPERS);
    Files.write(PAPERS.resolve("two-pages-P-4.pdf"), pdf);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertThat(document.getNumberOfPages()).isEqualTo(2);
      assertThat(document.getDocumentCatalog().getMarkInfo().isMarked()).isTrue();
      assertThat(new PDFTextStripper().getText(document).replaceAll("\\s+", " "))
          .containsPattern("\\d+ more: see dossier.pdf\\?appendix=true");
    }
  }

  /** One dossier as it came. */
  private record Paper(String text, Map<String, byte[]> files) {

    List<String> lines() {
      return text.lines().map(line -> line.strip().replaceAll("\\s+", " ")).toList();
    }

    byte[] enclosedCheckpoints() {
      return files.get("checkpoints.json");
    }

    List<JsonNode> checkpoints() throws IOException {
      return files.containsKey("checkpoints.json")
          ? List.of(JSON.readValue(enclosedCheckpoints(), JsonNode[].class))
          : List.of();
    }
  }

  private static Paper print(String person, String lot, String language) throws IOException {
    byte[] pdf =
        as(person)
            .header("Accept-Language", language)
            .pathParam("lot", lot)
            .get("/api/v1/lots/{lot}/dossier.pdf?appendix=true")
            .then()
            .statusCode(200)
            .extract()
            .asByteArray();
    Files.createDirectories(PAPERS);
    Files.write(PAPERS.resolve("dossier-" + lot + "-" + person + "-" + language + ".pdf"), pdf);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      Map<String, byte[]> files = new HashMap<>();
      for (Map.Entry<String, PDComplexFileSpecification> file :
          document.getDocumentCatalog().getNames().getEmbeddedFiles().getNames().entrySet()) {
        files.put(file.getKey(), file.getValue().getEmbeddedFile().toByteArray());
      }
      PDFTextStripper stripper = new PDFTextStripper();
      stripper.setSortByPosition(true);
      return new Paper(stripper.getText(document), files);
    }
  }

  private static String moment(ZonedDateTime time, String pattern, Locale locale) {
    String offset = DateTimeFormatter.ofPattern("xxx").format(time);
    return DateTimeFormatter.ofPattern(pattern, locale).format(time)
        + (offset.equals("+00:00") ? " (UTC)" : " (UTC" + offset + ")");
  }

  /** The checkpoint over a fact by the proof that is given out; the log has it as its newest. */
  private static JsonNode checkpointOver(String lot, String factId) throws IOException {
    JsonNode proof = JSON.readTree(as(AUDITOR).get("/api/v1/lots/" + lot + "/proof").asByteArray());
    JsonNode log = JSON.readTree(as(AUDITOR).get("/api/v1/log").asByteArray());
    for (JsonNode entry : proof.at("/manifest/entries")) {
      if (entry.get("factId").asText().equals(factId)) {
        int partition = entry.get("partition").asInt();
        JsonNode newest = log.at("/partitions/" + partition + "/newestCheckpoint");
        assertThat(newest.get("partition").asInt()).isEqualTo(partition);
        return newest;
      }
    }
    throw new AssertionError("No " + factId + " in " + proof.get("manifest"));
  }

  private static void bringFitLot(String lot) {
    List<String> facts = InventedFitLot.facts(lot);
    as("everything")
        .contentType(ContentType.JSON)
        .body("[" + InventedFitLot.laboratory() + ", " + String.join(", ", facts) + "]")
        .post("/api/v1/facts")
        .then()
        .statusCode(200);
    until(
        () -> {
          Response answer = as(QUALITY).get("/api/v1/lots/" + lot);
          Response dossier = as(QUALITY).get("/api/v1/lots/" + lot + "/facts");
          return answer.statusCode() == 200
              && "FIT".equals(answer.jsonPath().getString("state"))
              && dossier.jsonPath().getInt("counting") == facts.size();
        });
    SettledSeal.of(QUALITY, lot);
  }

  private static Response sign(String lot, String password) {
    String sheet = "/api/v1/lots/" + lot + "/release-sheet";
    return as(QUALITY)
        .contentType(ContentType.JSON)
        .body(
            Map.of(
                "kind", "RELEASE",
                "reason", "all evidence is there",
                "meaning", "responsibility for the release",
                "seal", as(QUALITY).get(sheet).jsonPath().getString("seal"),
                "password", password))
        .post("/api/v1/lots/" + lot + "/acts");
  }

  /** Until the log stands still and all of it is signed. */
  private static void untilSigned(String lot) {
    until(
        () -> {
          JsonPath proof = as(AUDITOR).get("/api/v1/lots/" + lot + "/proof").jsonPath();
          JsonPath log = as(AUDITOR).get("/api/v1/log").jsonPath();
          return proof.getInt("coverage.signed") == proof.getList("facts").size()
              && log.getLong("notSignedYet") == 0
              && Optional.ofNullable(log.<Integer>get("notChainedYet")).orElse(1) == 0;
        });
  }

  private static RequestSpecification as(String person) {
    return given().header("Authorization", TestPeople.basic(person));
  }
}
