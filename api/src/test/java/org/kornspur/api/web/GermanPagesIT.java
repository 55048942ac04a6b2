package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import io.restassured.response.Response;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.TextResolver;
import org.kornspur.api.web.help.HelpTopic;

/**
 * Every page of the invented enterprise in German, a paper, and answers of the interface: no piece
 * of an English text of ours stands in one, but where it is marked as English (WCAG 2.2, success
 * criterion 3.1.2).
 */
@ExtendWith(DemoMachine.class)
@ExtendWith(AsPerson.class)
class GermanPagesIT {
  private static final List<String> TEXTS =
      Stream.concat(
              Stream.of("statements", "problems", "requests", "headlines"),
              TextResolver.NAMES.stream())
          .map(name -> "text/" + name + "_%s.properties")
          .toList();

  private static final Pattern MARKED = Pattern.compile("(?s)<(\\w+)[^>]* lang=\"en\".*?</\\1>");
  private static final Pattern SCRIPT = Pattern.compile("(?s)<(script|style)\\b.*?</\\1>");
  private static final Pattern HIDDEN = Pattern.compile(" data-[a-z-]+=\"[^\"]*\"");
  private static final Pattern TAG = Pattern.compile("<[^>]*>");
  private static final Pattern THREE_WORDS =
      Pattern.compile(".*\\p{L}{2,} +\\p{L}{2,} +\\p{L}{2,}.*");

  @BeforeEach
  void waitForTheDemo() throws InterruptedException, IOException {
    DemoLoaded.await();
  }

  @Test
  void noEnglishTextOfOursStandsOnAGermanPage() throws Exception {
    Set<String> pieces = englishPieces();
    assertThat(pieces).hasSizeGreaterThan(200);
    assertThat(pieces).as("in English they are found").anyMatch(text("en", "/desk")::contains);

    Map<String, List<String>> found = new TreeMap<>();
    for (String address : addresses()) {
      String text = text("de", address);
      List<String> english = pieces.stream().filter(text::contains).toList();
      if (!english.isEmpty()) {
        found.put(address, english);
      }
    }

    assertThat(found).isEmpty();
  }

  @Test
  void noEnglishTextOfOursStandsOnAGermanPaper() throws Exception {
    for (String asked : List.of("dossier.pdf", "dossier.pdf?appendix=true")) {
      byte[] pdf = asked("de", "/api/v1/lots/L25-S01/" + asked).asByteArray();
      try (PDDocument paper = Loader.loadPDF(pdf)) {
        String text = new PDFTextStripper().getText(paper).replaceAll("\\s+", " ");

        assertThat(text).contains("Partie");
        assertThat(englishPieces()).filteredOn(text::contains).isEmpty();
      }
    }
  }

  @Test
  void noEnglishTextOfOursStandsInAGermanAnswer() throws Exception {
    Set<String> pieces = englishPieces();
    Map<String, List<String>> found = new TreeMap<>();
    answers("de")
        .forEach(
            (asked, answer) -> {
              List<String> english = pieces.stream().filter(answer::contains).toList();
              if (!english.isEmpty()) {
                found.put(asked, english);
              }
            });

    assertThat(found).isEmpty();
    assertThat(answers("en").values())
        .as("in English they are found")
        .allMatch(answer -> pieces.stream().anyMatch(answer::contains));
  }

  @Test
  void noTypeOrFieldOfFactsIsDescribedInEnglishInAGermanAnswer() throws IOException {
    JsonMapper json = JsonMapper.builder().build();
    JsonNode english = json.readTree(asked("en", "/api/v1/fact-types").asString());
    JsonNode german = json.readTree(asked("de", "/api/v1/fact-types").asString());
    for (String text : List.of("description", "remedy")) {
      Set<String> written = new TreeSet<>(english.findValuesAsText(text));
      written.remove("");

      assertThat(written).hasSizeGreaterThan(20);
      assertThat(german.findValuesAsText(text)).doesNotContainAnyElementsOf(written);
    }
  }

  /** Answers by what was asked: advice, traces, recalls and refusals. */
  private static Map<String, String> answers(String language) {
    Map<String, String> answers = new TreeMap<>();
    Stream<String> lots =
        Stream.of("NOT_FIT", "FIT")
            .flatMap(state -> ids("lots", state).limit(4))
            .flatMap(
                id ->
                    Stream.of(
                        "/api/v1/lots/" + id + "/recall-drill",
                        "/api/v1/lots/" + id + "/label",
                        "/api/v1/lots/" + id + "/label.svg"));
    Stream<String> crops =
        Stream.of("NOT_FIT", "EVIDENCE_OWED", "FIT")
            .flatMap(state -> ids("crops", state).limit(4))
            .flatMap(
                id ->
                    Stream.of(
                        "/api/v1/advice/hybridity/" + id,
                        "/api/v1/advice/inspection/" + id,
                        "/api/v1/advice/inspection/" + id + "?alpha=0.4&beta=0.4&multiple=100"));
    Stream<String> refused =
        Stream.of(
            "/problems",
            "/api/v1/log",
            "/problems/none",
            "/api/v1/advice/calibration",
            "/api/v1/lots/none",
            "/api/v1/crops/none",
            "/api/v1/rulebooks/none",
            "/api/v1/quarantine/none",
            "/api/v1/none",
            "/api/v1/lots?size=x",
            "/api/v1/log/checkpoints?partition=99",
            "/api/v1/lots/none/recall-drill?stock=x");
    Stream.of(lots, crops, refused)
        .flatMap(all -> all)
        .forEach(address -> answers.put(address, written(asked(language, address))));
    Map.of(
            "mixture",
            List.of(
                "{\"hybridId\": \"HYB-02\", \"massKg\": 1}",
                "{\"hybridId\": \"HYB-02\", \"massKg\": 1e9}",
                "{\"hybridId\": \"HYB-02\", \"massKg\": -1}",
                "{\"hybridId\": \"none\", \"massKg\": 1}"),
            "compare",
            List.of(
                "{\"kind\": \"PURITY\", \"stated\": 99, \"found\": 98}",
                "{\"kind\": \"PURITY\", \"stated\": 99, \"found\": 99}",
                "{\"kind\": \"PURITY\", \"stated\": 101, \"found\": 99}",
                "{\"kind\": \"OTHER_SEEDS\", \"stated\": 500, \"found\": 501}"),
            "heterogeneity",
            List.of(
                "{\"attribute\": \"PURITY\", \"results\": [99.4, 96, 99.6, 98.7, 99.5]}",
                "{\"attribute\": \"OTHER_SEEDS\", \"results\": [0, 1, 0]}",
                "{\"attribute\": \"PURITY\", \"results\": [99.4]}",
                "{\"attribute\": \"GERMINATION\", \"results\": [92, 94, 91, 90, 70]}",
                "{\"attribute\": \"BLEND_SHARE\", \"results\": [5, 50], \"examined\": [500, 500]}",
                "{\"attribute\": \"BLEND_SHARE\", \"results\": [5, 6], \"examined\": [90, 90]}",
                "{\"attribute\": \"BLEND_SHARE\", \"results\": [5, 6], \"examined\": [5, 5]}"))
        .forEach(
            (advice, bodies) ->
                bodies.forEach(
                    body ->
                        answers.put(
                            advice + " " + body,
                            written(
                                given()
                                    .header("Accept-Language", language)
                                    .contentType("application/json")
                                    .body(body)
                                    .post("/api/v1/advice/" + advice)))));
    return answers;
  }

  private static String written(Response answer) {
    assertThat(answer.statusCode()).as(answer.asString()).isLessThan(500);
    return answer.asString().replace('\u00a0', ' ');
  }

  private static List<String> addresses() {
    Stream<String> fixed =
        Stream.of(
            "/desk",
            "/lots?size=200",
            "/crops?size=200",
            "/quarantine",
            "/release",
            "/record",
            "/record/conditioning",
            "/record/field-inspection",
            "/files",
            "/seasons",
            "/seasons/multipliers",
            "/laboratories",
            "/laboratories/ENT-LAB-ONE",
            "/map/2025?day=2025-06-02",
            "/map/2026",
            "/plan",
            "/plan/new",
            "/audit?sample=2&seed=1",
            "/audit/proof",
            "/field-book",
            "/help",
            "/help?q=Probe",
            "/help/rules?book=DE",
            "/help/rules?book=US",
            "/trace",
            "/trace?q=L25-S01",
            "/trace/drill?subject=lot:L25-S01");
    Stream<String> lots =
        Stream.concat(ids("lots", "NOT_FIT"), ids("lots", "EVIDENCE_OWED"))
            .flatMap(id -> Stream.of("/lots/" + id, "/lots/" + id + "/sign"));
    Stream<String> crops =
        Stream.concat(ids("crops", "NOT_FIT"), ids("crops", "EVIDENCE_OWED"))
            .flatMap(
                id ->
                    Stream.of(
                        "/crops/" + id,
                        "/field-book/crops/" + id,
                        "/field-book/crops/" + id + "/inspection"));
    Stream<String> fit =
        Stream.concat(
            ids("lots", "FIT").limit(3).map(id -> "/lots/" + id),
            ids("crops", "FIT").limit(2).map(id -> "/crops/" + id));
    Stream<String> refused =
        given().get("/api/v1/quarantine").jsonPath().<String>getList("items.entryId").stream()
            .map(id -> "/quarantine/" + id);
    Stream<String> manual = Stream.of(HelpTopic.values()).map(HelpTopic::href);
    return Stream.of(fixed, lots, crops, fit, refused, manual).flatMap(all -> all).toList();
  }

  private static Stream<String> ids(String kind, String state) {
    return given()
        .queryParam("state", state)
        .queryParam("size", 50)
        .get("/api/v1/" + kind)
        .jsonPath()
        .<String>getList("items.id")
        .stream();
  }

  private static Response asked(String language, String address) {
    Response answer = given().header("Accept-Language", language).get(address);
    String type = answer.contentType();
    if (type.startsWith("text/html") || type.contains("json")) {
      assertThat(answer.header("Content-Language")).as(address).isEqualTo(language);
    }
    return answer;
  }

  /** What a reader sees of a page, without what is marked as English. */
  private static String text(String language, String address) {
    Response answer = asked(language, address);
    assertThat(answer.statusCode()).as(address).isEqualTo(200);
    String page = answer.asString().replaceFirst("<html[^>]*>", "");
    for (Pattern left : List.of(MARKED, SCRIPT, HIDDEN)) {
      page = left.matcher(page).replaceAll("");
    }
    return TAG.matcher(page)
        .replaceAll(" ")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&")
        .replace('\u00a0', ' ')
        .replaceAll("\\s+", " ");
  }

  /** Pieces of three words and more between the arguments of English texts. */
  private static Set<String> englishPieces() throws IOException {
    Set<String> german = new TreeSet<>();
    Set<String> english = new TreeSet<>();
    for (String file : TEXTS) {
      pieces(file.formatted("en")).forEach(english::add);
      pieces(file.formatted("de")).forEach(german::add);
    }
    english.removeIf(piece -> german.stream().anyMatch(other -> other.contains(piece)));
    // what a form fills in becomes a word of the record, in the language of who recorded it
    String recorded = PageTexts.in(Language.ENGLISH, "book").of("sourceDocumentPhone");
    english.removeIf(recorded::contains);
    return english;
  }

  private static Stream<String> pieces(String resource) throws IOException {
    Properties texts = new Properties();
    try (Reader reader =
        new InputStreamReader(
            GermanPagesIT.class.getClassLoader().getResourceAsStream(resource),
            StandardCharsets.UTF_8)) {
      texts.load(reader);
    }
    return pieces(texts.stringPropertyNames().stream().map(texts::getProperty).toList());
  }

  private static Stream<String> pieces(List<String> texts) {
    return texts.stream()
        .flatMap(
            text -> Arrays.stream(text.replace("''", "'").split("[{}#]|, plural, |, select, ")))
        .map(String::strip)
        .filter(piece -> THREE_WORDS.matcher(piece).matches())
        .collect(Collectors.toCollection(TreeSet::new))
        .stream();
  }
}
