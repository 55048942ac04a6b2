package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/**
 * An auditor's day: from a label number to the whole way back and forth, to a recall drill, to the
 * dossier on paper. The story is demo-events/ABOUT.md, which is invented; masses and labels are
 * held against its files, read here by themselves.
 */
@ExtendWith(AsPerson.class)
class AuditorDayIT extends BrowserTest {
  private static final Path DISPATCHES =
      Path.of("..", "demo-events", "stories", "01-neighbour-reported-late", "Dispatch.csv");
  private static final Path PAPERS = Path.of("target", "papers");
  private static final Pattern CONTENTS_LINE = Pattern.compile("(.+?)[ .]*[.][ .]*(\\d+)");

  private static final String AUDITOR = TestPeople.of(Role.AUDITOR);

  private Page open(Screen screen, Language language, String path) {
    Page page = chromium.signedIn(screen, language, root, AUDITOR);
    page.navigate(root + path);
    return page;
  }

  /** One line of the demo's own file of dispatches. */
  private record Sent(String lot, String customer, double massKg, List<String> labels) {}

  private static List<Sent> sent() throws IOException {
    return Files.readAllLines(DISPATCHES).stream()
        .skip(1)
        .map(line -> line.split(",", -1))
        .map(c -> new Sent(c[5], c[6], Double.parseDouble(c[7]), List.of(c[8].split(";"))))
        .toList();
  }

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void theAuditorsPagesAreWithinReachOfAll(Screen screen, Language language) throws IOException {
    String label = sent().get(0).labels().get(0);
    String[][] pages = {
      {"trace", "trace"},
      {"trace?q=" + label, "trace-label"},
      {"trace?q=unknown-number", "trace-nothing"},
      {"trace/drill?subject=lot:L25-S01", "drill"},
      {"trace/drill?subject=lot:L24-S05&lot=L24-S05&kg=1", "drill-off"}
    };
    Page page = chromium.signedIn(screen, language, root, AUDITOR);
    for (String[] path : pages) {
      page.navigate(root + path[0]);
      PageCheck.whole(page, path[1], screen, language);
    }
    page.context().close();
  }

  @Test
  void fromALabelToTheDossierAndTheDrill() throws Exception {
    Sent bag = sent().get(0);
    Page page = open(Screen.WIDE, Language.ENGLISH, "trace");
    page.getByLabel("Label number, lot, crop or fact")
        .fill(bag.labels().get(0).toLowerCase(Locale.ROOT));
    page.keyboard().press("Enter");
    page.waitForURL("**/trace?q=*");
    assertThat(page.locator("h1").textContent()).startsWith("Trace of lot " + bag.lot());
    assertThat(page.locator("#how").textContent()).contains(bag.customer());
    assertThat(page.locator("section[aria-labelledby=back]").textContent())
        .contains("crop C25-S01");

    Download download =
        page.waitForDownload(
            () ->
                page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("PDF, whole"))
                    .click());
    Path paper = PAPERS.resolve("dossier.pdf");
    download.saveAs(paper);
    checkDossier(paper, bag.lot());

    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Recall drill")).click();
    page.waitForURL("**/trace/drill?*");
    assertThat(page.locator("h1").textContent()).isEqualTo("Recall drill of lot " + bag.lot());
    assertThat(page.locator("#completeness").textContent()).startsWith("Complete");
    assertThat(page.locator("#measures").textContent())
        .contains("ms")
        .contains("Unresolved links: 0");
    double expectedKg =
        sent().stream().filter(s -> s.lot().equals(bag.lot())).mapToDouble(Sent::massKg).sum();
    String customers = page.locator("section[aria-labelledby=customers]").textContent();
    assertThat(customers).contains(String.format(Locale.UK, "%,.0f", expectedKg));
    sent().stream()
        .filter(s -> s.lot().equals(bag.lot()))
        .forEach(s -> assertThat(customers).contains(s.customer()).contains(s.labels()));
    page.context().close();
  }

  /** A dispatch names the first and the last label of its bags; common practice, no source. */
  @Test
  void aLabelBetweenTheFirstAndTheLastIsFoundAndSaidToLieBetween() throws IOException {
    Sent bag = sent().get(0);
    long first = Long.parseLong(bag.labels().get(0).substring(4));
    Page page = open(Screen.WIDE, Language.ENGLISH, "trace?q=INV-%06d".formatted(first + 2));
    assertThat(page.locator("h1").textContent()).startsWith("Trace of lot " + bag.lot());
    assertThat(page.locator("#how").textContent()).contains("lies between");
    page.context().close();
  }

  @Test
  void theDrillOfTheWholeLotCountsEveryKilogramOfTheFilesAndOffersItAsATable() throws IOException {
    JsonPath drill = given().get("/api/v1/lots/L25-S01/recall-drill").jsonPath();
    double sentKg = sent().stream().mapToDouble(Sent::massKg).sum();
    assertThat(drill.getDouble("balance.toCustomersKg")).isCloseTo(sentKg, within(0.001));
    assertThat(drill.getList("deliveries.labelNumbers.flatten()"))
        .containsExactlyInAnyOrderElementsOf(
            sent().stream().flatMap(s -> s.labels().stream()).toList());
    double outKg = drill.getDouble("balance.outKg");
    double left = drill.getDouble("balance.stockKg") + drill.getDouble("balance.lossKg");
    assertThat(drill.getDouble("balance.inKg"))
        .isCloseTo(outKg + left + drill.getDouble("balance.differenceKg"), within(0.001));
    assertThat(drill.getBoolean("balance.balances")).isTrue();

    String sheet =
        given()
            .get("/api/v1/lots/L25-S01/recall-drill.csv")
            .then()
            .statusCode(200)
            .extract()
            .asString();
    for (Sent s : sent()) {
      assertThat(sheet).contains(String.join(" ", s.labels()));
    }
  }

  @Test
  void whatWasCountedInStoreIsHeldAgainstTheBooks() {
    Page page = open(Screen.WIDE, Language.ENGLISH, "trace/drill?subject=lot:L25-S01");
    assertThat(page.locator("#verdict").textContent()).contains("add up");
    page.getByLabel("Counted in store of lot L25-S01, kilograms", exact()).fill("99999");
    page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Calculate again")).click();
    PlaywrightAssertions.assertThat(page.locator("#verdict")).containsText("do not add up");
    assertThat(page.url()).contains("kg=99999");
    page.context().close();
  }

  private static Page.GetByLabelOptions exact() {
    return new Page.GetByLabelOptions().setExact(true);
  }

  @Test
  void theGermanPapersHaveTheirUmlautsAndAllFontsWithin() throws IOException {
    Files.createDirectories(PAPERS);
    for (String name : List.of("dossier.pdf?appendix=true", "recall-drill.pdf")) {
      byte[] pdf =
          given()
              .header("Accept-Language", "de")
              .get("/api/v1/lots/L25-S01/" + name)
              .then()
              .statusCode(200)
              .extract()
              .asByteArray();
      Files.write(PAPERS.resolve("de-" + name.replaceAll("[?].*", "")), pdf);
      try (PDDocument document = Loader.loadPDF(pdf)) {
        assertThat(new PDFTextStripper().getText(document))
            .contains("vorwärts")
            .contains("Abnehmer");
        for (PDPage page : document.getPages()) {
          for (COSName font : page.getResources().getFontNames()) {
            assertThat(page.getResources().getFont(font).isEmbedded()).isTrue();
          }
        }
        assertThat(document.getDocumentCatalog().getLanguage()).isEqualTo("de");
        assertThat(document.getDocumentCatalog().getMarkInfo().isMarked()).isTrue();
        assertThat(document.getDocumentInformation().getTitle()).contains("L25-S01");
      }
    }
  }

  private void checkDossier(Path paper, String lot) throws Exception {
    try (PDDocument document = Loader.loadPDF(paper.toFile())) {
      List<String> pages = new ArrayList<>();
      PDFTextStripper stripper = new PDFTextStripper();
      for (int page = 1; page <= document.getNumberOfPages(); page++) {
        stripper.setStartPage(page);
        stripper.setEndPage(page);
        pages.add(stripper.getText(document));
        assertThat(pages.get(page - 1))
            .contains("Page " + page + " of " + document.getNumberOfPages());
      }
      checkContents(pages, lot);

      byte[] enclosed = enclosed(document, "dossier.json");
      String text = String.join("", pages).replaceAll("\\s+", "");
      assertThat(text).contains(sha256(enclosed));
      Set<String> facts = factsOfLotAndAncestors(lot);
      assertThat(facts).hasSizeGreaterThan(20);
      for (String fact : facts) {
        assertThat(text).contains(fact);
      }
      JsonNode content = new ObjectMapper().readTree(enclosed);
      Set<String> within = new TreeSet<>();
      content.get("facts").fieldNames().forEachRemaining(within::add);
      assertThat(within).isEqualTo(facts);
      checkCheckpoints(text, new ObjectMapper().readTree(enclosed(document, "checkpoints.json")));
    }
  }

  /** What is printed and enclosed is what the log itself hands out. */
  private static void checkCheckpoints(String text, JsonNode checkpoints) throws IOException {
    assertThat(text).contains("Signedcheckpointscovereachofthe");
    assertThat(checkpoints).hasSize(2);
    for (JsonNode checkpoint : checkpoints) {
      JsonNode handedOut =
          new ObjectMapper()
              .readTree(
                  given()
                      .queryParam("partition", checkpoint.get("partition").asInt())
                      .queryParam("from", checkpoint.get("number").asLong())
                      .get("/api/v1/log/checkpoints")
                      .asByteArray());
      assertThat(checkpoint).isEqualTo(handedOut.get(0));
      assertThat(text)
          .contains(checkpoint.get("link").asText())
          .contains(checkpoint.get("keyId").asText());
    }
  }

  /** Every entry of the contents names the page on which its headline stands. */
  private static void checkContents(List<String> pages, String lot) {
    int ancestors = ancestors(lot).size();
    int entries = 0;
    String front = String.join("\n", pages.subList(0, Math.min(3, pages.size())));
    for (String line : front.substring(front.indexOf("Contents")).split("\\R")) {
      Matcher entry = CONTENTS_LINE.matcher(line.strip());
      if (line.contains(". . .") && entry.matches()) {
        entries++;
        String title = entry.group(1).replaceAll("[ .]+$", "");
        int page = Integer.parseInt(entry.group(2));
        assertThat(pages.get(page - 1).lines().map(String::strip))
            .as("headline of '%s' on page %s", title, page)
            .contains(title);
      }
    }
    assertThat(entries).isEqualTo(11 + ancestors);
  }

  private static List<String> ancestors(String lot) {
    return given()
        .get("/api/v1/lots/" + lot + "/trace?direction=back")
        .jsonPath()
        .getList("nodes.subject", String.class)
        .stream()
        .skip(1)
        .toList();
  }

  /** As the interface has them: each subject's own list of facts. */
  private static Set<String> factsOfLotAndAncestors(String lot) {
    List<String> subjects = new ArrayList<>(ancestors(lot));
    subjects.add("lot:" + lot);
    Set<String> facts = new TreeSet<>();
    for (String subject : subjects) {
      String path = subject.replace("lot:", "lots/").replace("crop:", "crops/");
      facts.addAll(
          given()
              .get("/api/v1/" + path + "/facts")
              .jsonPath()
              .getList("facts.fact.header.factId", String.class));
    }
    return facts;
  }

  private static byte[] enclosed(PDDocument document, String name) throws IOException {
    PDComplexFileSpecification file =
        document.getDocumentCatalog().getNames().getEmbeddedFiles().getNames().get(name);
    return file.getEmbeddedFile().toByteArray();
  }

  private static String sha256(byte[] bytes) throws NoSuchAlgorithmException {
    return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
  }
}
