package org.kornspur.api.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.text.Language;

/** A day of a seed-testing station in a real browser, with the invented enterprise loaded. */
@ExtendWith(AsPerson.class)
class LaboratoryIT extends BrowserTest {
  private static final String LABORATORY = TestPeople.of(Role.LABORATORY);
  private static final Path DEMO = Path.of("..", "demo-events");

  /**
   * Replicates 100, 97, 94, 91 have the mean 95.5, rounded 96, at which four replicates of 100 may
   * lie 8 apart, and lie 9 apart; 100, 96, 93, 92 have the mean 95.25, rounded 95, at which they
   * may lie 9 apart, and lie 8 apart. Source of the ranges: 7 CFR 201.55(a), as in
   * ReplicateToleranceTest.
   */
  @ParameterizedTest
  @EnumSource(Screen.class)
  void aGerminationTestIsCheckedChangedRecordedAndJudged(Screen screen) {
    String lot = "BN-DAY-" + screen;
    LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    Page page = chromium.signedIn(screen, Language.ENGLISH, root, LABORATORY);
    page.waitForURL("**/laboratory");
    assertThat(page.locator(".rooms [aria-current]")).hasText("Laboratory");
    Locator card = page.locator("[data-sample='S-" + lot + "']");
    untilShown(page, card);
    assertThat(card).containsText("Treated seed: invented dressing. Gloves, no dust.");
    assertThat(card.locator(".asked li").first()).containsText("Germination to be tested");
    assertThat(page.locator("#begin ~ ul")).containsText("accredited samplers and laboratories");
    PageCheck.whole(page, "laboratory-" + screen + "-en");
    card.locator("h3 a").click();
    assertThat(page.locator(".danger"))
        .containsText("Treated seed: invented dressing. Gloves, no dust; never food");
    PageCheck.whole(page, "laboratory-sample-" + screen + "-en");
    page.locator("[data-task=GERMINATION]").click();

    replicates(page, 100, 97, 94, 91);
    page.getByLabel("Report number").fill("bench sheet 7");
    press(page, "Check");
    assertThat(page.locator(".lines .owed"))
        .containsText("9 percentage points apart; at most 8 are tolerated");
    assertThat(page.locator(".lines .owed")).containsText("7 CFR 201.55(a)");
    PageCheck.whole(page, "laboratory-checked-apart-" + screen + "-en");
    press(page, "Change");
    assertThat(normal(page, 0)).hasValue("100");
    assertThat(page.getByLabel("Report number")).hasValue("bench sheet 7");
    replicates(page, 100, 96, 93, 92);
    press(page, "Check");
    assertThat(page.locator(".lines .good"))
        .containsText("8 percentage points apart; at most 9 are tolerated");
    assertThat(page.locator(".lines")).containsText("95 %: 381 normal seedlings of 400 seeds");
    PageCheck.whole(page, "laboratory-checked-" + screen + "-en");
    assertThat(LaboratoryFacts.gateOf(lot, "GERMINATION", gate -> true))
        .containsEntry("state", "OWED");
    press(page, "Record");

    assertThat(page.locator(".notice.good").first()).containsText("Recorded");
    Map<String, Object> gate =
        LaboratoryFacts.gateOf(lot, "GERMINATION", judged -> judged.get("state").equals("MET"));
    assertThat(((Number) gate.get("value")).intValue()).isEqualTo(95);
    page.reload();
    assertThat(page.locator(".results > li")).hasCount(1);
    assertThat(page.locator(".results")).containsText("bench sheet 7");
    assertThat(page.locator(".asked li").first()).containsText("has a result");
    PageCheck.whole(page, "laboratory-recorded-" + screen + "-en");
    page.context().close();
  }

  /** Ranges as in {@link #aGerminationTestIsCheckedChangedRecordedAndJudged}. */
  @ParameterizedTest
  @CsvSource({"NARROW, GERMAN", "WIDE, ENGLISH"})
  void manySamplesAreCheckedAndRecordedOnOneSheet(Screen screen, Language language) {
    String good = "BN-MANY-A-" + screen;
    String apart = "BN-MANY-B-" + screen;
    String wrong = "BN-MANY-C-" + screen;
    for (String lot : List.of(good, apart, wrong)) {
      LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    }
    Page page = chromium.loggedIn(screen, language, root, LABORATORY).newPage();
    untilListed(page, wrong);
    PageCheck.whole(page, "laboratory-many-empty-" + screen + "-" + language.tag());

    line(page, good, 100, 96, 93, 92);
    assertThat(lineOf(page, good).locator(".why .good")).containsText("7 CFR 201.55(a)");
    count(page, good, 3).press("ArrowDown");
    assertThat(count(page, good, 3)).not().isFocused();
    line(page, apart, 100, 97, 94, 91);
    assertThat(lineOf(page, apart).locator(".why .owed")).isVisible();
    line(page, wrong, 95, 101, 96, 94);
    page.locator("#document").fill("bench sheet 12");
    lineOf(page, apart).locator(".report input").fill("bench sheet 13");
    Chromium.send(page.locator("button[value=check]"));
    assertThat(page.locator("#refused")).isVisible();
    assertThat(lineOf(page, wrong).locator(".why .faults")).containsText("101");
    assertThat(count(page, wrong, 1)).hasAttribute("aria-invalid", "true");
    assertThat(page.locator("button[value=record]")).containsText("2");
    PageCheck.whole(page, "laboratory-many-checked-" + screen + "-" + language.tag());

    // what was changed after it was shown is shown again before it is recorded
    count(page, good, 0).fill("99");
    Chromium.send(page.locator("button[value=record]"));
    assertThat(page.locator("#recorded")).containsText("1");
    assertThat(lineOf(page, apart)).hasCount(0);
    assertThat(lineOf(page, good).locator(".why")).containsText("380");
    count(page, wrong, 1).fill("97");
    Chromium.send(page.locator("button[value=check]"));
    assertThat(page.locator("#refused")).hasCount(0);
    Chromium.send(page.locator("button[value=record]"));
    page.waitForURL("**/laboratory/germination?recorded=2");
    assertThat(page.locator("#recorded")).containsText("2");

    LaboratoryFacts.gateOf(good, "GERMINATION", gate -> gate.get("state").equals("MET"));
    LaboratoryFacts.gateOf(wrong, "GERMINATION", gate -> gate.get("state").equals("MET"));
    Map<String, Object> owed =
        LaboratoryFacts.gateOf(
            apart, "GERMINATION", gate -> !gate.get("factIds").toString().equals("[]"));
    assertThat(owed).containsEntry("state", "OWED");
    assertThat(LaboratoryFacts.ofLot(good, "GerminationTest", 1).toString())
        .contains("bench sheet 12");
    assertThat(LaboratoryFacts.ofLot(apart, "GerminationTest", 1).toString())
        .contains("bench sheet 13");
    untilListed(page, apart);
    assertThat(lineOf(page, apart).locator("th")).containsText("bench sheet 13");
    page.context().close();
  }

  /** Goes to the page of the sheet on which the sample of a lot waits. */
  private void untilListed(Page page, String lot) {
    Instant end = Instant.now().plusMillis((long) PATIENCE_MS);
    page.navigate(root + "laboratory/germination");
    while (lineOf(page, lot).count() == 0) {
      assertThat(Instant.now()).as("no line for " + lot).isBefore(end);
      Locator next = page.locator(".paging [rel=next]");
      page.navigate(
          next.count() > 0
              ? root + next.getAttribute("href").substring(1)
              : root + "laboratory/germination");
    }
  }

  private static Locator lineOf(Page page, String lot) {
    return page.locator("[data-line]:has([value='S-" + lot + "'])");
  }

  private static Locator count(Page page, String lot, int replicate) {
    return lineOf(page, lot).locator(".count input").nth(replicate);
  }

  private static void line(Page page, String lot, int... normal) {
    for (int at = 0; at < normal.length; at++) {
      count(page, lot, at).fill(String.valueOf(normal[at]));
    }
  }

  @Test
  void theSamePageSentTwiceIsOneFact() {
    String lot = "BN-TWICE";
    LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    Page page = form(lot, "moisture", Screen.NARROW, Language.ENGLISH);
    page.locator("[name=moisturePercent]").fill("13,4");
    page.getByLabel("Report number").fill("bench sheet 8");
    press(page, "Check");
    assertThat(page.locator("#checked")).isVisible();
    Object answers =
        page.evaluate(
            """
            async () => {
              const form = document.querySelector('#checked');
              const body = new URLSearchParams(new FormData(form));
              body.set('step', 'record');
              const answers = [];
              for (let time = 0; time < 2; time++) {
                const answer = await fetch(form.action, {method: 'POST', body});
                answers.push(answer.status + ' ' + answer.url.split('?')[1]);
              }
              return answers;
            }""");
    assertThat(answers).isEqualTo(List.of("200 recorded=moisture", "200 recorded=moisture"));
    assertThat(LaboratoryFacts.ofLot(lot, "MoistureTest", 1)).hasSize(1);
    page.context().close();
  }

  @ParameterizedTest
  @CsvSource({
    "NARROW, ENGLISH, 101; expected at most the 100 seeds laid in this replicate",
    "WIDE, GERMAN, Angegeben: 101. Erwartet: höchstens die 100 in dieser Wiederholung"
  })
  void aReplicateWithMoreSeedlingsThanSeedsIsRefused(
      Screen screen, Language language, String refusal) {
    String lot = "BN-SUM-" + screen;
    LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    Page page = form(lot, "germination", screen, language);
    replicates(page, 95, 101, 96, 94);
    page.locator("[name='header.sourceDocument']").fill("bench sheet 9");
    page.locator("button.write").click();
    assertThat(page.locator("#f-replicates-1--normalSeedlings-faults")).containsText(refusal);
    assertThat(page.locator("#faults a")).hasCount(1);
    assertThat(normal(page, 1)).hasAttribute("aria-invalid", "true");
    assertThat(normal(page, 2)).hasValue("96");
    PageCheck.whole(page, "laboratory-refused-" + screen + "-" + language.tag());
    normal(page, 1).fill("a lot");
    page.locator("button.write").click();
    assertThat(page.locator("#f-replicates-1--normalSeedlings-faults")).containsText("a lot");
    normal(page, 1).fill("");
    page.locator("button.write").click();
    assertThat(page.locator("#faults a")).hasCount(1);
    normal(page, 1).fill("97");
    page.locator("button.write").click();
    assertThat(page.locator("#checked")).isVisible();
    page.context().close();
  }

  @ParameterizedTest
  @EnumSource(Screen.class)
  void aLaboratoryCorrectsItsOwnResultAndSaysWhy(Screen screen) {
    String lot = "BN-MEND-" + screen;
    LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    Page page = form(lot, "moisture", screen, Language.ENGLISH);
    page.locator("[name=moisturePercent]").fill("31.4");
    page.getByLabel("Report number").fill("bench sheet 10");
    press(page, "Check");
    press(page, "Record");
    assertThat(page.locator(".notice.good").first()).containsText("Recorded");
    LaboratoryFacts.gateOf(lot, "MOISTURE", gate -> gate.get("state").equals("NOT_MET"));
    page.navigate(root + "laboratory/lots/" + lot + "/samples/S-" + lot);
    page.locator(".results a").click();
    assertThat(page.locator("h1")).containsText("Correct: Moisture");
    assertThat(page.locator("[name=moisturePercent]")).hasValue("31.4");
    PageCheck.whole(page, "laboratory-correct-" + screen + "-en");

    page.locator("[name=moisturePercent]").fill("13.4");
    press(page, "Check");
    assertThat(page.locator("#f-header-correction-reason-faults p")).hasCount(1);
    page.getByLabel("Reason").fill("digits swapped");
    page.locator("[name=moisturePercent]").fill("31.4");
    press(page, "Check");
    assertThat(page.locator("#faults")).containsText("Nothing was changed");
    page.locator("[name=moisturePercent]").fill("13.4");
    press(page, "Check");
    press(page, "Record");
    assertThat(page.locator(".notice.good").first()).containsText("Recorded");

    LaboratoryFacts.gateOf(lot, "MOISTURE", gate -> gate.get("state").equals("MET"));
    List<Map<String, Object>> facts = LaboratoryFacts.ofLot(lot, "MoistureTest", 2);
    assertThat(facts).hasSize(2);
    assertThat(facts.toString())
        .contains("digits swapped")
        .contains("supersedes=")
        .contains("moisturePercent=31.4");
    page.reload();
    assertThat(page.locator(".results .gone")).containsText("No longer counts: digits swapped");
    assertThat(page.locator(".results .gone a")).hasCount(0);
    PageCheck.whole(page, "laboratory-corrected-" + screen + "-en");
    page.context().close();
  }

  @Test
  void anotherLaboratorySeesNothingOfItAndNobodyElseHasALaboratory() {
    String lot = "BN-OTHERS";
    LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    BrowserContext other =
        chromium.loggedIn(Screen.WIDE, Language.ENGLISH, root, TestPeople.LAB_TWO);
    Page page = other.newPage();
    for (String part : List.of("", "/germination", "/moisture?corrects=x")) {
      String path = "laboratory/lots/%1$s/samples/S-%1$s" + part;
      assertThat(page.navigate(root + path.formatted(lot)).status()).isEqualTo(404);
      String foreign = page.locator("main").innerText().replace(lot, "ID");
      assertThat(page.navigate(root + path.formatted("NONE")).status()).isEqualTo(404);
      assertThat(page.locator("main").innerText().replace("NONE", "ID")).isEqualTo(foreign);
    }
    page.navigate(root + "laboratory");
    String token = page.locator("[name=csrfToken]").first().inputValue();
    Map<String, String> typed =
        Map.of(
            "step",
            "record",
            "header.factId",
            "bn-foreign",
            "moisturePercent",
            "13",
            "header.happenedAt",
            "2026-08-03T10:00",
            "header.sourceDocument",
            "invented");
    String address = "/laboratory/lots/%1$s/samples/S-%1$s/moisture".formatted(lot);
    assertThat(statusOfPost(page, address, typed))
        .as("without the token of the page")
        .isEqualTo(403);
    Map<String, String> withToken = new HashMap<>(typed);
    withToken.put("csrfToken", token);
    assertThat(statusOfPost(page, address, withToken)).isEqualTo(404);
    assertThat(LaboratoryFacts.ofLot(lot, "MoistureTest", 0)).isEmpty();
    other.close();

    Page quality =
        chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, TestPeople.of(Role.QUALITY));
    assertThat(quality.locator(".rooms")).not().containsText("Laboratory");
    assertThat(quality.navigate(root + "laboratory").status()).isEqualTo(403);
    quality.context().close();
  }

  /** Expected from the files of the demo alone; the retest is told in demo-events/ABOUT.md. */
  @Test
  void theLaboratoriesOfTheDemoFindTheirSamples() throws IOException {
    Set<String> expected = samplesInFiles("ENT-LAB-TWO");
    assertThat(expected).hasSizeGreaterThan(50).contains("S-L25-S04A");
    Page page = chromium.signedIn(Screen.WIDE, Language.ENGLISH, root, TestPeople.LAB_TWO);
    page.waitForURL("**/laboratory");
    Locator owed = page.locator("[data-sample=S-L25-S04A]");
    untilShown(page, owed);
    assertThat(owed).containsText("asked for again: retest of 4 × 100 seeds");
    assertThat(page.locator("#open ~ ul [data-sample=S-L25-S04A]")).hasCount(1);
    PageCheck.whole(page, "laboratory-demo-WIDE-en");
    Set<String> listed = new TreeSet<>(shown(page));
    Locator next = page.locator(".paging [rel=next]");
    while (next.count() > 0) {
      String address = next.getAttribute("href");
      next.click();
      page.waitForURL(shown -> shown.endsWith(address));
      listed.addAll(shown(page));
    }
    assertThat(listed)
        .containsAll(expected)
        .doesNotContainAnyElementsOf(samplesInFiles("ENT-LAB-ONE"));
    page.context().close();
  }

  @ParameterizedTest
  @CsvSource({"NARROW, ENGLISH", "NARROW, GERMAN", "WIDE, ENGLISH", "WIDE, GERMAN"})
  void everyFormIsWithinReachOfAll(Screen screen, Language language) {
    String lot = "BN-FORMS";
    LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    BrowserContext person = chromium.loggedIn(screen, language, root, LABORATORY);
    Page page = person.newPage();
    for (String path : List.of("", "/germination", "/purity", "/other-seeds", "/moisture")) {
      page.navigate(root + "laboratory/lots/%1$s/samples/S-%1$s".formatted(lot) + path);
      PageCheck.whole(page, "laboratory-form" + path.replace('/', '-'), screen, language);
    }
    page.navigate(root + "laboratory");
    PageCheck.whole(page, "laboratory-list-" + screen + "-" + language.tag());
    person.close();
  }

  @Test
  void aPersonWithoutLaboratoryIsToldWhatToDo() {
    BrowserContext person =
        chromium.loggedIn(Screen.NARROW, Language.ENGLISH, root, TestPeople.UNBOUND_LABORATORY);
    Page page = person.newPage();
    assertThat(page.navigate(root + "laboratory").status()).isEqualTo(200);
    assertThat(page.locator(".notice.owed")).containsText("Your account has no laboratory yet");
    person.close();
  }

  /** Ergot bodies: the count is shown with the danger and stays on the sample's page. */
  @Test
  void ergotThatWasFoundIsToldAsADanger() {
    String lot = "BN-ERGOT";
    LaboratoryFacts.bring(lot, "ENT-LAB-ONE");
    Page page = form(lot, "other-seeds", Screen.NARROW, Language.GERMAN);
    page.locator("[name=sampleG]").fill("500,5");
    page.locator("[name='header.sourceDocument']").fill("Blatt 11");
    page.locator("button.write").click();
    assertThat(page.locator("#f-otherCereals-faults")).containsText("mindestens eine der Zahlen");
    page.locator("[name=otherCereals]").fill("0");
    page.locator("[name=ergotBodies]").fill("2");
    page.locator("button.write").click();
    assertThat(page.locator(".lines .bad")).containsText("2. Mutterkorn ist giftig");
    assertThat(page.locator(".lines")).containsText("nicht gezählt");
    PageCheck.whole(page, "laboratory-checked-ergot-NARROW-de");
    page.locator("button.write").click();
    Map<String, Object> ergot =
        LaboratoryFacts.gateOf(lot, "ERGOT", gate -> !gate.get("factIds").toString().equals("[]"));
    assertThat(ergot.get("sentence").toString()).contains("Count of ergot sclerotia", ": 2.");
    page.reload();
    assertThat(page.locator(".danger").nth(1)).containsText("Mutterkorn gefunden: giftig");
    page.context().close();
  }

  /** The lists of the laboratories are made from the facts on a way of their own. */
  private static void untilShown(Page page, Locator card) {
    Instant end = Instant.now().plusMillis((long) PATIENCE_MS);
    while (card.count() == 0) {
      assertThat(Instant.now()).as("not on " + page.url()).isBefore(end);
      page.waitForTimeout(200);
      page.reload();
    }
  }

  private Page form(String lot, String form, Screen screen, Language language) {
    BrowserContext person = chromium.loggedIn(screen, language, root, LABORATORY);
    Page page = person.newPage();
    page.navigate(root + "laboratory/lots/%1$s/samples/S-%1$s/%2$s".formatted(lot, form));
    return page;
  }

  private static Object statusOfPost(Page page, String address, Map<String, String> typed) {
    return page.evaluate(
        """
        async ([address, typed]) =>
          (await fetch(address, {method: 'POST', body: new URLSearchParams(typed)})).status""",
        List.of(address, typed));
  }

  private static void replicates(Page page, int... normal) {
    for (int at = 0; at < normal.length; at++) {
      normal(page, at).fill(String.valueOf(normal[at]));
    }
  }

  private static Locator normal(Page page, int at) {
    return page.locator("[name='replicates[" + at + "].normalSeedlings']");
  }

  private static void press(Page page, String button) {
    Chromium.send(
        page.getByRole(
            AriaRole.BUTTON, new Page.GetByRoleOptions().setName(button).setExact(true)));
  }

  private static List<String> shown(Page page) {
    return page.locator("[data-sample] h3").allTextContents().stream().map(String::strip).toList();
  }

  private static Set<String> samplesInFiles(String laboratoryId) throws IOException {
    Pattern sample = Pattern.compile("(?m)^.*,(S-[A-Z0-9-]+),.*," + laboratoryId + "\\r?$");
    Set<String> found = new TreeSet<>();
    try (Stream<Path> files = Files.walk(DEMO)) {
      for (Path file :
          files.filter(path -> path.getFileName().toString().equals("Sampling.csv")).toList()) {
        Matcher lines = sample.matcher(Files.readString(file));
        while (lines.find()) {
          found.add(lines.group(1));
        }
      }
    }
    return found;
  }
}
