package org.kornspur.api.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.FilePayload;
import io.restassured.path.json.JsonPath;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.kafka.embedded.BrokerLogins;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;
import org.kornspur.ingest.verify.VerifyCommand;

/** An audit of twenty lots in one pack, and a proof that is verified on a page. */
@ExtendWith(AsPerson.class)
class AuditPageIT extends BrowserTest {
  private static final String AUDITOR = TestPeople.of(Role.AUDITOR);
  private static final String QUALITY = TestPeople.of(Role.QUALITY);
  private static final Path PAPERS = Path.of("target", "papers");

  /** With {@code -Daudit.lots=20} it is measured what a pack saves; that takes minutes. */
  private static final int LOTS = Integer.getInteger("audit.lots", 5);

  private static final String SEED = "4711";

  /** WCAG 2.2, 1.4.10. */
  private static final int LEAST_WIDTH = 320;

  private static final double LONGEST_MS = 300_000;

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({"NARROW, GERMAN", "WIDE, ENGLISH"})
  void theAuditsPagesAreWithinReachOfAll(Screen screen, Language language) {
    Page page = chromium.signedIn(screen, language, root, AUDITOR);
    if (screen == Screen.NARROW) {
      page.setViewportSize(LEAST_WIDTH, screen.height);
    }
    String[][] addresses = {
      {"audit", "audit"},
      {"audit?sample=3&seed=1", "audit-drawn"},
      {"audit?ids=L25-S01%0Ano-such-lot", "audit-listed"},
      {"audit?cropYear=2025", "audit-season"},
      {"audit/proof", "audit-proof"},
      {"audit/packs/none", "audit-gone"}
    };
    for (String[] address : addresses) {
      page.navigate(root + address[0]);
      PageCheck.whole(page, address[1], screen, language);
    }
    page.navigate(root + "audit?ids=L25-S01%0Ano-such-lot");
    PlaywrightAssertions.assertThat(page.locator("#unknown")).containsText("no-such-lot");
    send(page.locator("#make button"));
    page.waitForURL("**/audit/packs/*");
    awaitReady(page);
    PageCheck.whole(page, "audit-pack", screen, language);
    page.navigate(root + "audit");
    PageCheck.whole(page, "audit-packs", screen, language);
    page.context().close();
  }

  /** What an auditor clicks, from the first page after the log-in to the archive. */
  @Test
  void lotsDrawnAtRandomComeInOnePackAfterFourClicks() throws Exception {
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, AUDITOR);
    PersonAtWork person = new PersonAtWork(page);
    person.send(
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Audit").setExact(true)));
    page.waitForURL("**/audit");
    person.type(page.getByLabel("Draw at random"), String.valueOf(LOTS));
    person.type(page.getByLabel("Seed of the draw"), SEED);
    person.send(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Show lots")));
    page.waitForURL("**/audit?*");
    List<String> drawn = draw(LOTS);
    assertThat(page.locator("#make tbody .id").allTextContents()).isEqualTo(drawn);
    person.send(
        page.getByRole(
            AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Make the audit pack")));
    page.waitForURL("**/audit/packs/*");
    String address = page.url();
    page.navigate(root + "trace"); // it goes on when its page is left
    page.navigate(address);
    awaitReady(page);
    String took = page.locator("#ready").textContent();
    Download download = page.waitForDownload(() -> person.send(page.locator("#download")));
    Path file = PAPERS.resolve("audit-pack.zip");
    download.saveAs(file);
    person.done("Audit of %d lots in one pack".formatted(LOTS));
    assertThat(person.clicks()).isLessThanOrEqualTo(6);
    assertThat(person.fields()).isLessThanOrEqualTo(2);

    Map<String, byte[]> pack = unpacked(file);
    contentsNameEachFile(pack);
    eachLotHasTwoPages(pack, drawn);
    int appendixPages = eachAncestorAndFactAndSourceStandsOnce(pack, drawn);
    proofsAndCheckpointsVerify(pack);
    assertThat(text(pack, "people-journal.csv")).startsWith("\"Number\",\"Time\",\"By\"");
    assertThat(text(pack, "log/verification.txt")).contains("Intact").contains("Partition 0:");
    assertThat(
            new ObjectMapper().readTree(pack.get("log/verification.json")).get("result").asText())
        .isEqualTo("INTACT");

    if (System.getProperty("audit.lots") != null) {
      Files.writeString(
          PAPERS.resolve("audit-pack.txt"),
          "%d lots in one pack: %d clicks, %d pages (%d in the appendix), %d bytes. %s%n%s"
              .formatted(
                  LOTS,
                  person.clicks(),
                  2 * LOTS + appendixPages,
                  appendixPages,
                  Files.size(file),
                  took,
                  wholeDossiers(drawn)));
    }

    Page other = chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, QUALITY).newPage();
    assertThat(other.navigate(address).status()).isEqualTo(404);
    assertThat(other.locator("[role=alert]").textContent()).contains("is for who asked for it");
    assertThat(given().redirects().follow(false).get(address + "/audit-pack.zip").statusCode())
        .isEqualTo(404);
    page.context().close();
    other.context().close();
  }

  /** What is left out by hand is named, and who may not read the journal does not get it. */
  @Test
  void qualityGetsAPackOfAListInGermanWithoutTheJournal() throws Exception {
    Page page = chromium.signedIn(Screen.WIDE, Language.GERMAN, root, QUALITY);
    page.navigate(root + "audit");
    page.getByLabel("Oder Partien, je Zeile eine").fill("L25-S01\nL24-S05");
    send(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Partien zeigen")));
    page.waitForURL("**/audit?*");
    page.locator("input[value=L24-S05]").uncheck();
    send(page.locator("#make button"));
    page.waitForURL("**/audit/packs/*");
    awaitReady(page);
    Download download = page.waitForDownload(() -> page.locator("#download").click());
    Path file = folder.resolve("pack.zip");
    download.saveAs(file);
    Map<String, byte[]> pack = unpacked(file);
    assertThat(pack.keySet()).contains("lots/L25-S01.pdf").doesNotContain("lots/L24-S05.pdf");
    assertThat(pack).doesNotContainKey("people-journal.csv");
    assertThat(text(pack, "CONTENTS.txt"))
        .contains("weggelassen: L24-S05")
        .contains("Wer es bestellt hat, darf sie nicht lesen");
    Paper paper = Paper.of(pack.get("lots/L25-S01.pdf"));
    assertThat(paper.language()).isEqualTo("de");
    assertThat(paper.text()).contains("Partie L25-S01 auf zwei Seiten").contains("Abnehmer");
    assertThat(paper.pages()).hasSize(2);
    page.context().close();
  }

  @Test
  void aProofIsVerifiedInWordsAndSoIsOneThatWasAltered() throws Exception {
    String proof = given().get("/api/v1/lots/L25-S01/proof").asString();
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, AUDITOR);
    verify(page, proof);
    PlaywrightAssertions.assertThat(page.locator("#verdict"))
        .hasText("All that is signed is as it was sealed.");
    assertThat(page.locator("#proved").textContent()).contains("lot:L25-S01");
    assertThat(page.locator("#keys").textContent())
        .contains(given().get("/api/v1/log").jsonPath().getString("keyId"))
        .contains("a key of this site");
    assertThat(page.locator("#not-proved").textContent()).contains("Whether a fact is true");
    PageCheck.whole(page, "audit-proof-intact");

    String altered = proof.replaceFirst("(\"massKg\":\\s*)(\\d)", "$11$2");
    assertThat(altered).isNotEqualTo(proof);
    verify(page, altered);
    PlaywrightAssertions.assertThat(page.locator("#verdict"))
        .hasText("Something is not as it was sealed.");
    assertThat(page.locator("#findings").textContent())
        .contains("The readable form of a fact does not say what its bytes say");
    PageCheck.whole(page, "audit-proof-altered");

    verify(page, "{}");
    PlaywrightAssertions.assertThat(page.locator("#refused")).containsText("no proof file");
    page.context().close();
  }

  private void verify(Page page, String proof) {
    page.navigate(root + "audit/proof");
    page.locator("#file")
        .setInputFiles(
            new FilePayload(
                "proof.json", "application/json", proof.getBytes(StandardCharsets.UTF_8)));
    send(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Verify")));
  }

  private static void awaitReady(Page page) {
    PlaywrightAssertions.assertThat(page.locator("#download"))
        .isVisible(new LocatorAssertions.IsVisibleOptions().setTimeout(LONGEST_MS));
  }

  private static void send(Locator button) {
    Chromium.send(button);
  }

  /** The draw, made here by itself from the ids that the interface lists. */
  private static List<String> draw(int size) {
    List<String> ids =
        given().get("/api/v1/lots?size=1000&sort=id").jsonPath().getList("items.id", String.class);
    return ids.stream()
        .sorted(Comparator.comparing(id -> sha256((SEED + id).getBytes(StandardCharsets.UTF_8))))
        .limit(size)
        .toList();
  }

  private static void contentsNameEachFile(Map<String, byte[]> pack) {
    Map<String, String> named = new TreeMap<>();
    for (String line : text(pack, "CONTENTS.txt").split("\n")) {
      if (!line.startsWith("#")) {
        named.put(line.substring(66), line.substring(0, 64));
      }
    }
    Map<String, String> expected = new TreeMap<>();
    pack.forEach((path, content) -> expected.put(path, sha256(content)));
    expected.remove("CONTENTS.txt");
    assertThat(named).isEqualTo(expected);
    assertThat(text(pack, "CONTENTS.txt"))
        .contains("with seed " + SEED)
        .contains("SHA-256 over seed and id");
  }

  private static void eachLotHasTwoPages(Map<String, byte[]> pack, List<String> lots)
      throws IOException {
    for (String lot : lots) {
      Paper paper = Paper.of(pack.get("lots/" + lot + ".pdf"));
      JsonPath standing = given().get("/api/v1/lots/" + lot).jsonPath();
      assertThat(paper.pages()).as(lot).hasSize(2);
      assertThat(paper.isTagged()).isTrue();
      assertThat(paper.language()).isEqualTo("en");
      assertThat(paper.title()).contains(lot);
      assertThat(paper.pages().get(0)).contains("Not met or missing").contains("Met");
      assertThat(paper.pages().get(0).indexOf("Not met or missing"))
          .isLessThan(paper.pages().get(0).lastIndexOf("Met"));
      assertThat(paper.pages().get(1))
          .contains("Release and signatures")
          .contains("Mass")
          .contains("Customers");
      assertThat(standing.getString("id")).isEqualTo(lot);
    }
  }

  /** Returns how many pages it has. */
  private static int eachAncestorAndFactAndSourceStandsOnce(
      Map<String, byte[]> pack, List<String> lots) throws IOException {
    Set<String> subjects = new TreeSet<>();
    for (String lot : lots) {
      given()
          .get("/api/v1/lots/" + lot + "/trace?direction=back")
          .jsonPath()
          .getList("nodes.findAll { it.kind != 'enterprise' }.subject", String.class)
          .forEach(subjects::add);
    }
    List<String> bookmarks = new ArrayList<>();
    List<String> facts = new ArrayList<>();
    Map<String, Integer> sources = new TreeMap<>();
    int pages = 0;
    for (String path : pack.keySet()) {
      if (path.startsWith("appendix")) {
        Paper paper = Paper.of(pack.get(path));
        assertThat(paper.isTagged()).isTrue();
        pages += paper.pages().size();
        bookmarks.addAll(paper.bookmarks());
        Pattern.compile("(\\S+), happened ")
            .matcher(paper.text().replaceAll("\\s+", " "))
            .results()
            .map(found -> found.group(1))
            .forEach(facts::add);
        if (paper.bookmarks().contains("Sources of the limits")) {
          String text = paper.text().replaceAll("\\s+", " ");
          String end = text.substring(text.lastIndexOf("Sources of the limits"));
          Pattern.compile("(EU|DE|US|HOUSE|PRACTICE): .+?from \\d+ \\w+ \\d{4}")
              .matcher(end)
              .results()
              .map(MatchResult::group)
              .forEach(source -> sources.merge(source, 1, Integer::sum));
        }
      }
    }
    assertThat(bookmarks.stream().filter("Sources of the limits"::equals)).hasSize(1);
    assertThat(bookmarks.stream().filter(name -> !name.equals("Sources of the limits")))
        .containsExactlyInAnyOrderElementsOf(
            subjects.stream().map(subject -> subject.replace(":", " ")).toList());
    assertThat(sources).isNotEmpty().allSatisfy((source, times) -> assertThat(times).isEqualTo(1));
    assertThat(facts).hasSizeGreaterThan(100).doesNotHaveDuplicates();
    return pages;
  }

  private void proofsAndCheckpointsVerify(Map<String, byte[]> pack) throws IOException {
    int proofs = 0;
    for (Map.Entry<String, byte[]> file : pack.entrySet()) {
      if (file.getKey().startsWith("proofs/")) {
        proofs++;
        Path proof = Files.write(folder.resolve("proof.json"), file.getValue());
        assertThat(verified(List.of(proof.toString()))).as(file.getKey()).contains("INTACT");
      }
    }
    assertThat(proofs).isGreaterThan(LOTS);
    Path checkpoints =
        Files.write(folder.resolve("checkpoints.json"), pack.get("log/checkpoints.json"));
    assertThat(
            verified(
                List.of(
                    "--client",
                    DemoMachine.dataFolder().resolve(BrokerLogins.CLIENT_FILE).toString(),
                    "--checkpoints",
                    checkpoints.toString())))
        .contains("INTACT");
  }

  private static String verified(List<String> arguments) {
    List<String> all = new ArrayList<>(arguments);
    all.addAll(List.of("--trust", DemoMachine.dataFolder().resolve("keys").toString()));
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PrintStream both = new PrintStream(out, true, StandardCharsets.UTF_8);
    VerifyCommand.run(both, both, all);
    return out.toString(StandardCharsets.UTF_8);
  }

  /** The same lots as whole dossiers, as they were asked for one by one, in the same run. */
  private static String wholeDossiers(List<String> lots) throws IOException {
    long began = System.nanoTime();
    long bytes = 0;
    int pages = 0;
    for (String lot : lots) {
      byte[] pdf = given().get("/api/v1/lots/" + lot + "/dossier.pdf?appendix=true").asByteArray();
      bytes += pdf.length;
      pages += Paper.of(pdf).pages().size();
    }
    return "%d whole dossiers: %d pages, %d bytes, %.1f s%n"
        .formatted(lots.size(), pages, bytes, (System.nanoTime() - began) / 1e9);
  }

  private static Map<String, byte[]> unpacked(Path file) throws IOException {
    Map<String, byte[]> files = new TreeMap<>();
    try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(file))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        assertThat(files.put(entry.getName(), zip.readAllBytes())).isNull();
      }
    }
    return files;
  }

  private static String text(Map<String, byte[]> pack, String path) {
    return new String(pack.get(path), StandardCharsets.UTF_8);
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException missing) {
      throw new IllegalStateException(missing);
    }
  }

  /** A paper as it can be read. */
  private record Paper(
      List<String> pages, List<String> bookmarks, String title, String language, boolean isTagged) {

    static Paper of(byte[] pdf) throws IOException {
      try (PDDocument document = Loader.loadPDF(pdf)) {
        List<String> pages = new ArrayList<>();
        PDFTextStripper stripper = new PDFTextStripper();
        stripper.setSortByPosition(true);
        for (int page = 1; page <= document.getNumberOfPages(); page++) {
          stripper.setStartPage(page);
          stripper.setEndPage(page);
          pages.add(stripper.getText(document));
        }
        for (PDPage page : document.getPages()) {
          for (COSName font : page.getResources().getFontNames()) {
            assertThat(page.getResources().getFont(font).isEmbedded()).isTrue();
          }
        }
        List<String> bookmarks = new ArrayList<>();
        for (PDOutlineItem item : document.getDocumentCatalog().getDocumentOutline().children()) {
          bookmarks.add(item.getTitle());
        }
        return new Paper(
            pages,
            bookmarks,
            document.getDocumentInformation().getTitle(),
            document.getDocumentCatalog().getLanguage(),
            document.getDocumentCatalog().getMarkInfo().isMarked());
      }
    }

    String text() {
      return String.join("\n", pages);
    }
  }
}
