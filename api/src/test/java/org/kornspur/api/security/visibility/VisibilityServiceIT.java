package org.kornspur.api.security.visibility;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import jakarta.inject.Inject;
import java.net.URI;
import java.net.URL;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;

/**
 * What a multiplier can and cannot learn, with three seasons of the demo. Expected from {@link
 * DemoSeed}, which reads the files alone. Model: Regulation (EC) No 178/2002, Article 18: one step
 * back, one step forward.
 */
@QuarkusTest
@TestProfile(DemoProfile.class)
class VisibilityServiceIT {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Map<String, String> GROWERS =
      Map.of(TestPeople.WEST, "ENT-MULT-WEST", TestPeople.EAST, "ENT-MULT-EAST");

  /** A position in a partition that is not there: all that is kept is told again. */
  private static final String ABSENT_PARTITION = "9-0";

  private static final String EVENTS = "/api/v1/epcis/events";
  private static final Pattern NEXT = Pattern.compile("<([^?>]+)\\?([^>]+)>; rel=\"next\"");
  private static final Pattern IN_CLEAR =
      Pattern.compile("nextPageToken=-?[0-9]+_[0-9a-f]+(&|>|$)");

  @TestHTTPResource("/")
  URL root;

  @Inject CursorCipher cursors;

  private static final Duration LONGEST_JUDGING = Duration.ofMinutes(10);
  private static final Duration STILL = Duration.ofSeconds(2);

  /** The facts of the demo come in once; what a test adds is judged before the next one begins. */
  private static boolean settled;

  private Asking asking;
  private DemoSeed seed;
  private int total;

  @BeforeEach
  void waitUntilJudged() throws Exception {
    asking = new Asking(root.toString());
    seed = DemoSeed.read(DemoProfile.SEASONS);
    await()
        .atMost(LONGEST_JUDGING)
        .pollInterval(Duration.ofMillis(250))
        .during(settled ? Duration.ZERO : STILL)
        .until(this::standsStill);
    settled = true;
  }

  /** All is judged, and there are as many crops and lots as at the last look. */
  private boolean standsStill() throws Exception {
    Asking.Answer lots = asking.get("quality", "/api/v1/lots?size=1");
    Asking.Answer crops = asking.get("quality", "/api/v1/crops?size=1");
    if (lots.status() != 200 || crops.status() != 200) {
      return false;
    }
    JsonNode of = JSON.readTree(lots.body());
    int now = of.path("total").asInt() + JSON.readTree(crops.body()).path("total").asInt();
    boolean asBefore = now == total;
    total = now;
    return asBefore && of.path("asOf").path("complete").asBoolean() && now >= seed.all().size();
  }

  @Test
  void theListsOfAMultiplierHoldItsOwnAndCountNothingElse() throws Exception {
    for (Map.Entry<String, String> grower : GROWERS.entrySet()) {
      Set<String> own = seed.ownOf(grower.getValue());
      assertThat(own).as("the demo has seed of " + grower.getValue()).hasSizeGreaterThan(10);
      assertThat(own.size()).isLessThan(seed.all().size() / 2);
      Set<String> listed = new TreeSet<>(listed(grower.getKey(), "/api/v1/lots"));
      listed.addAll(listed(grower.getKey(), "/api/v1/crops"));
      assertThat(listed).isEqualTo(own);

      JsonNode ofOthers = get(grower.getKey(), "/api/v1/lots?holder=ENT-MULT-SOUTH");
      assertThat(ofOthers.path("total").asInt()).isZero();
      int counted = 0;
      for (JsonNode hybrid : get(grower.getKey(), "/api/v1/hybrids")) {
        counted += sum(hybrid.path("crops")) + sum(hybrid.path("lots"));
      }
      assertThat(counted).as("counts by hybrid").isEqualTo(own.size());
    }
  }

  @Test
  void noAnswerToAMultiplierHoldsTheIdOfSeedBeyondOneStep() throws Exception {
    for (Map.Entry<String, String> grower : GROWERS.entrySet()) {
      Set<String> own = seed.ownOf(grower.getValue());
      Set<String> hidden = new TreeSet<>(seed.all());
      hidden.removeAll(seed.withNeighbours(own));
      assertThat(hidden).hasSizeGreaterThan(50);
      Pattern anyHidden = anyOf(hidden);
      List<String> leaks = new ArrayList<>();
      for (String path : everythingToAsk(grower.getKey(), own)) {
        String body = asking.get(grower.getKey(), path).body();
        anyHidden
            .matcher(body)
            .results()
            .limit(3)
            .forEach(found -> leaks.add(path + ": " + found.group()));
      }
      assertThat(leaks).as(grower.getValue()).isEmpty();
    }
  }

  /** The check above would find a leak: quality, asked the same, is told of the others' seed. */
  @Test
  void qualityIsToldWhatTheMultiplierIsNot() throws Exception {
    Set<String> own = seed.ownOf("ENT-MULT-WEST");
    Set<String> hidden = new TreeSet<>(seed.all());
    hidden.removeAll(seed.withNeighbours(own));
    long told = 0;
    for (String path : everythingToAsk(TestPeople.WEST, own)) {
      told += anyOf(hidden).matcher(asking.get("quality", path).body()).results().count();
    }
    assertThat(told).isGreaterThan(100);
  }

  @Test
  void anotherGrowersSeedIsAnsweredAsIfThereWereNone() throws Exception {
    Set<String> foreign = new TreeSet<>(seed.all());
    foreign.removeAll(seed.ownOf("ENT-MULT-WEST"));
    for (String id : foreign) {
      for (String path :
          List.of(
              "/api/v1/lots/%s",
              "/api/v1/lots/%s/trace",
              "/api/v1/lots/%s/owed",
              "/api/v1/crops/%s",
              "/api/v1/crops/%s/neighbours",
              "/api/v1/crops/%s/trace?direction=forward",
              "/api/v1/advice/inspection/%s",
              "/api/v1/crops/%s/facts",
              "/api/v1/lots/%s/facts",
              "/map/2025/distance?from=crop:%1$s&to=crop:%1$s",
              "/map/2025/source?from=%s")) {
        assertSameAsUnknown(path, id);
      }
    }
    assertSameAsUnknown("/api/v1/enterprises/%s", "ENT-MULT-EAST");
    assertThat(asking.get(TestPeople.WEST, "/api/v1/enterprises/ENT-MULT-WEST").status())
        .isEqualTo(200);
  }

  @Test
  void pagesOfAnotherGrowersSeedAreLikePagesOfNone() throws Exception {
    Set<String> foreign = new TreeSet<>(seed.all());
    foreign.removeAll(seed.withNeighbours(seed.ownOf("ENT-MULT-WEST")));
    for (String id : foreign.stream().limit(12).toList()) {
      for (String path :
          List.of(
              "/lots/%s",
              "/crops/%s",
              "/trace?q=%s",
              "/lots?id=%s",
              "/crops?id=%s",
              "/trace/drill?subject=lot:%s",
              "/field-book?q=%s",
              "/map/2025?at=crop:%s",
              "/field-book/crops/%s/inspection")) {
        assertThat(page(path, id)).as(path + " " + id).isEqualTo(page(path, "NONE-1"));
      }
    }
  }

  /** A page as WEST sees it, without the id that was asked for and what differs each time. */
  private String page(String path, String id) throws Exception {
    Asking.Answer answer =
        asking.ask(
            "GET",
            path.formatted(id),
            Map.of("Authorization", TestPeople.basic(TestPeople.WEST), "Accept", "text/html"),
            "");
    assertThat(answer.body()).contains("<html");
    return answer.status()
        + answer
            .body()
            .replace(id, "ID")
            .replaceAll("name=\"csrfToken\" value=\"[^\"]*\"", "")
            .replaceAll("[0-9]{1,2} [A-Z][a-z]+ 20[0-9]{2}, [0-9:]+", "")
            .replaceAll("data-[a-z-]*=\"[^\"]*\"", "");
  }

  @Test
  void aTraceIsCutOneStepBeyondTheBorderAndSaysSo() throws Exception {
    Set<String> own = seed.ownOf("ENT-MULT-WEST");
    String crop = own.stream().filter(id -> id.startsWith("C")).findFirst().orElseThrow();
    JsonNode trace = get(TestPeople.WEST, "/api/v1/crops/" + crop + "/trace?direction=back");
    assertThat(trace.path("complete").asBoolean()).isFalse();
    assertThat(trace.path("note").asText()).contains("178/2002");
    int beyond = 0;
    for (JsonNode node : trace.path("nodes")) {
      if (!own.contains(node.path("id").asText())) {
        beyond++;
        assertThat(node.path("steps").asInt()).isEqualTo(1);
        assertThat(node.path("state").isNull()).isTrue();
        assertThat(node.path("material").isNull()).isTrue();
        assertThat(node.path("reason").isNull()).isTrue();
      }
    }
    assertThat(beyond).isPositive();
  }

  /** What is own again behind another's mixture would tell what it was made of. */
  @Test
  void aHistoryEndsWhereTheTraceDoes() throws Exception {
    int cut = 0;
    for (Map.Entry<String, String> grower : GROWERS.entrySet()) {
      Set<String> own = seed.ownOf(grower.getValue());
      for (String lot : listed(grower.getKey(), "/api/v1/lots")) {
        Set<String> walked = new TreeSet<>();
        get(grower.getKey(), "/api/v1/lots/" + part(lot) + "/trace?direction=back")
            .path("nodes")
            .forEach(node -> walked.add(node.path("id").asText()));
        walked.retainAll(own);
        String history = "/api/v1/lots/" + part(lot) + "/history.epcis.json?ancestors=true";
        Set<String> told = named(grower.getKey(), history);
        Set<String> toldOf = seed.withNeighbours(walked);
        toldOf.retainAll(own);
        Set<String> may = seed.withNeighbours(toldOf);
        assertThat(may).as(lot + " of " + grower.getKey()).containsAll(told);
        cut += may.containsAll(named("quality", history)) ? 0 : 1;
      }
    }
    assertThat(cut).as("histories that go on for quality").isPositive();
  }

  /** He sold the seed; where and how much of it was sown, and with what, is the sower's. */
  @Test
  void whatOthersMadeOfSeedThatTheyBoughtIsCut() throws Exception {
    int cut = 0;
    for (Map.Entry<String, String> grower : GROWERS.entrySet()) {
      Set<String> own = seed.ownOf(grower.getValue());
      for (String lot : listed(grower.getKey(), "/api/v1/lots")) {
        JsonNode dossier = get(grower.getKey(), "/api/v1/lots/" + part(lot) + "/facts");
        for (JsonNode fact : dossier.path("facts")) {
          if (fact.at("/fact/type").asText().equals("Sowing")) {
            String crop = fact.at("/fact/cropId").asText();
            assertThat(crop.isEmpty() || own.contains(crop)).as(fact.toString()).isTrue();
            cut += crop.isEmpty() ? 1 : 0;
          }
        }
      }
    }
    assertThat(cut).as("sowings of own seed by others").isPositive();
  }

  /** Crops and lots that an answer names. */
  private Set<String> named(String person, String path) throws Exception {
    Asking.Answer answer = asking.get(person, path);
    assertThat(answer.status()).as(path).isEqualTo(200);
    Set<String> ids = new TreeSet<>();
    anyOf(seed.all()).matcher(answer.body()).results().forEach(id -> ids.add(id.group()));
    return ids;
  }

  @Test
  void aGuessThatNothingHeedsIsNeitherConfirmedNorDenied() throws Exception {
    Set<String> own = seed.ownOf("ENT-MULT-WEST");
    Set<String> hidden = new TreeSet<>(seed.all());
    hidden.removeAll(seed.withNeighbours(own));
    Pattern anyHidden = anyOf(hidden);
    String lot = "";
    String ancestor = "";
    for (String id : own) {
      String page = "/lots/" + part(id);
      Matcher told = anyHidden.matcher(asking.get("quality", page).body());
      if (asking.get(TestPeople.WEST, page).status() == 200 && told.find()) {
        lot = page;
        ancestor = told.group();
        break;
      }
    }
    assertThat(ancestor).as("a page of an own lot that would name a hidden one").isNotEmpty();
    for (String guess : List.of("?x=%s", "?%s=1", ";%s", ";:%s", "?language=a+%s")) {
      String confirmed = htmlOf(lot + guess.formatted(ancestor));
      String denied = htmlOf(lot + guess.formatted("NONE-1"));
      assertThat(confirmed.contains(ancestor)).as(lot + guess).isFalse();
      assertThat(confirmed).isEqualTo(denied);
    }
    for (String guess : List.of("?page=%s", "?sort=a+%s", "?x=%s")) {
      assertThat(htmlOf("/lots" + guess.formatted(ancestor)))
          .doesNotContain(ancestor)
          .isEqualTo(htmlOf("/lots" + guess.formatted("NONE-1")));
    }
  }

  private String htmlOf(String path) throws Exception {
    return page(path, "(none)");
  }

  @Test
  void howMuchOfAllHadComeInIsToldInNumbersToQualityAlone() throws Exception {
    JsonNode whole = get("quality", "/api/v1/lots?size=1").path("asOf");
    assertThat(whole.path("recordsWaiting").isNumber()).isTrue();
    assertThat(whole.path("waitingByTopic")).isNotEmpty();
    JsonNode part = get(TestPeople.WEST, "/api/v1/lots?size=1").path("asOf");
    assertThat(part.path("answeredAt").isTextual()).isTrue();
    assertThat(part.path("complete").isBoolean()).isTrue();
    assertThat(part.path("recordsWaiting").isNumber()).isFalse();
    assertThat(part.path("waitingByTopic")).isEmpty();
    assertThat(part.path("note").asText()).doesNotContainPattern("[0-9]");
  }

  @Test
  void theLiveStreamTellsEachGrowerOfItsOwn() throws Exception {
    Set<String> own = seed.ownOf("ENT-MULT-EAST");
    Set<String> hidden = new TreeSet<>(seed.all());
    hidden.removeAll(seed.withNeighbours(own));
    String beginning =
        cursors.told(sightOfNothing(), CursorCipher.Use.LIVE_STREAM, ABSENT_PARTITION);
    String heard =
        heardBy(
            TestPeople.EAST,
            beginning,
            text -> own.stream().allMatch(id -> text.contains(":" + id + "\"")));
    assertThat(own).allMatch(id -> heard.contains(":" + id + "\""));
    assertThat(anyOf(hidden).matcher(heard).find()).isFalse();
    assertThat(Pattern.compile("(?m)^id: [0-9.-]+$").matcher(heard).find()).isFalse();
    Predicate<String> tellsOfOthers = text -> anyOf(hidden).matcher(text).find();
    assertThat(heardBy("quality", ABSENT_PARTITION, tellsOfOthers)).matches(tellsOfOthers);
  }

  @Test
  void aGrowerGoesOnFromAnIdThatItWasGivenAndFromNoneThatItMadeUp() throws Exception {
    String beginning =
        cursors.told(sightOfNothing(), CursorCipher.Use.LIVE_STREAM, ABSENT_PARTITION);
    String heard = heardBy(TestPeople.EAST, beginning, text -> ids(text).size() > 5);
    String fourth = ids(heard).get(3);
    String later = heardBy(TestPeople.EAST, fourth, text -> ids(text).size() > 1);
    assertThat(dataAfter(later, 0)).isEqualTo(dataAfter(heard, 4));
    String reload = "event: reload";
    assertThat(heardBy(TestPeople.EAST, ABSENT_PARTITION, text -> text.contains(reload)))
        .contains(reload)
        .doesNotContain("event: standing");
  }

  @Test
  void pagesOfEventsEndWithTheLastEventThatTheGrowerSees() throws Exception {
    int all = events(get(TestPeople.WEST, EVENTS + "?perPage=1000")).size();
    int perPage = all / 3;
    assertThat(all).isGreaterThan(30);
    List<JsonNode> read = new ArrayList<>();
    String next = EVENTS + "?perPage=" + perPage;
    int pages = 0;
    while (next != null) {
      Asking.Answer page = asking.get(TestPeople.WEST, next);
      assertThat(page.status()).as(page.body()).isEqualTo(200);
      read.addAll(events(JSON.readTree(page.body())));
      pages++;
      Matcher link = NEXT.matcher(page.header("Link"));
      next = link.find() ? URI.create(link.group(1)).getRawPath() + "?" + link.group(2) : null;
      assertThat(next == null || !IN_CLEAR.matcher(next).find()).as(next).isTrue();
    }
    assertThat(read).hasSize(all).doesNotHaveDuplicates();
    assertThat(pages).isEqualTo((all + perPage - 1) / perPage);
    assertThat(asking.get(TestPeople.WEST, EVENTS + "?nextPageToken=0_0").status()).isEqualTo(400);
    assertThat(asking.get("quality", EVENTS + "?perPage=1").header("Link"))
        .containsPattern(IN_CLEAR);
  }

  /**
   * A parameter chooses events; what it says changes none of them. Values that also stand within
   * times and addresses are given on purpose.
   */
  @Test
  void noParameterOfAnEventQueryChangesAnEvent() throws Exception {
    for (String person : List.of(TestPeople.WEST, "quality")) {
      Map<String, JsonNode> plain = new TreeMap<>();
      Asking.Answer first = asking.get(person, EVENTS + "?perPage=1000");
      wholeEvents(first).forEach(event -> plain.put(event.path("eventID").asText(), event));
      assertThat(first.body()).doesNotContain("withheld");
      String one = plain.keySet().iterator().next();
      Map<String, String> values = new TreeMap<>();
      plain.values().forEach(event -> noteNames(event, values));
      values.put("eventType", "ObjectEvent,TransformationEvent,AggregationEvent,TransactionEvent");
      values.put("EQ_action", "ADD,OBSERVE,DELETE");
      values.put("EQ_bizStep", plain.get(one).path("bizStep").asText());
      values.put("EQ_eventID", one);
      values.put("GE_eventTime", "2022-01-01T00:00:00Z");
      values.put("LT_eventTime", "2025-10-10T10:00:00Z");
      values.put("GE_recordTime", "2022-01-01T00:00:00.000Z");
      values.put("LT_recordTime", "2099-12-31T00:00:00Z");
      values.put("perPage", "25");
      Matcher next = NEXT.matcher(asking.get(person, EVENTS + "?perPage=10").header("Link"));
      assertThat(next.find()).isTrue();
      values.put("nextPageToken", next.group(2).replaceAll(".*nextPageToken=([^&]*).*", "$1"));
      assertThat(values).hasSizeGreaterThan(12);
      for (Map.Entry<String, String> value : values.entrySet()) {
        String asked =
            EVENTS
                + "?"
                + value.getKey()
                + "="
                + (value.getKey().equals("nextPageToken")
                    ? value.getValue()
                    : part(value.getValue()));
        List<JsonNode> found = wholeEvents(asking.get(person, asked));
        // nobody finds events by the name of a lot that is not theirs to see
        if (person.equals("quality")) {
          assertThat(found).as(asked).isNotEmpty();
        }
        for (JsonNode event : found) {
          assertThat(plain).as(asked).containsValue(event);
        }
      }
    }
  }

  private static List<JsonNode> wholeEvents(Asking.Answer answer) throws Exception {
    assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    List<JsonNode> events = new ArrayList<>();
    JSON.readTree(answer.body())
        .at("/epcisBody/queryResults/resultsBody/eventList")
        .forEach(events::add);
    return events;
  }

  /** A name by which each list of an event can be asked for. */
  private static void noteNames(JsonNode event, Map<String, String> values) {
    Map<String, String> parameters =
        Map.of(
            "quantityList",
            "MATCH_epcClass,MATCH_anyEPCClass",
            "inputQuantityList",
            "MATCH_inputEPCClass",
            "outputQuantityList",
            "MATCH_outputEPCClass",
            "epcList",
            "MATCH_epc,MATCH_anyEPC",
            "inputEPCList",
            "MATCH_inputEPC",
            "outputEPCList",
            "MATCH_outputEPC");
    parameters.forEach(
        (list, names) -> {
          JsonNode name = event.path(list).path(0);
          String text = name.isTextual() ? name.asText() : name.path("epcClass").asText();
          if (!text.isEmpty() && !text.contains("withheld")) {
            for (String parameter : names.split(",", -1)) {
              values.putIfAbsent(parameter, text);
            }
          }
        });
  }

  /** Facts of others' seed name the hybrid too: neither how many there are nor when is told. */
  @Test
  void aHybridTellsAGrowerOfItsOwnFactsAlone() throws Exception {
    int less = 0;
    for (Map.Entry<String, String> grower : GROWERS.entrySet()) {
      Set<String> may = seed.withNeighbours(seed.ownOf(grower.getValue()));
      for (JsonNode hybrid : get(grower.getKey(), "/api/v1/hybrids")) {
        String path = "/api/v1/hybrids/" + hybrid.path("hybridId").asText();
        JsonNode seen = get(grower.getKey(), path);
        JsonNode whole = get("quality", path);
        assertThat(seen.findValues("cut")).as(path).isEmpty();
        assertThat(seen.path("counting").asInt() + seen.path("superseded").asInt())
            .isEqualTo(seen.path("facts").size());
        Set<String> told = new TreeSet<>();
        seen.path("facts").forEach(fact -> told.add(fact.at("/fact/header/factId").asText()));
        for (JsonNode fact : whole.path("facts")) {
          boolean isTold = told.contains(fact.at("/fact/header/factId").asText());
          Set<String> of = seedOf(fact);
          if (of.isEmpty()) {
            assertThat(isTold).as("what declares the hybrid: " + fact).isTrue();
          } else if (isTold) {
            assertThat(may).as(fact.toString()).containsAll(of);
          }
        }
        less += whole.path("facts").size() - seen.path("facts").size();
      }
    }
    assertThat(less).as("facts that quality alone sees").isPositive();
    for (JsonNode hybrid : get("inspector", "/api/v1/hybrids")) {
      String path = "/api/v1/hybrids/" + hybrid.path("hybridId").asText();
      assertThat(get("inspector", path).findValues("cut")).as(path).isEmpty();
    }
  }

  private static Set<String> seedOf(JsonNode fact) {
    Set<String> ids = new TreeSet<>();
    for (JsonNode subject : fact.path("subjects")) {
      String text = subject.path("subject").asText();
      if (text.startsWith("lot:") || text.startsWith("crop:")) {
        ids.add(text.substring(text.indexOf(':') + 1));
      }
    }
    return ids;
  }

  private static List<JsonNode> events(JsonNode document) {
    List<JsonNode> events = new ArrayList<>();
    document
        .at("/epcisBody/queryResults/resultsBody/eventList")
        .forEach(event -> events.add(event.path("eventID")));
    return events;
  }

  /** Values of the id of whole events. */
  private static List<String> ids(String heard) {
    return Pattern.compile("(?m)^id: (\\S+)\ndata: .*\n\n")
        .matcher(heard)
        .results()
        .map(event -> event.group(1))
        .toList();
  }

  private static String dataAfter(String heard, int events) {
    return Pattern.compile("(?m)^data: (.*)$")
        .matcher(heard)
        .results()
        .skip(events)
        .findFirst()
        .orElseThrow()
        .group(1);
  }

  private static Visibility sightOfNothing() {
    return new CombinedVisibility(List.of());
  }

  private String heardBy(String person, String lastEventId, Predicate<String> isEnough)
      throws Exception {
    return ListenFor.enough(
        isEnough, root + "api/v1/changes", TestPeople.basic(person), lastEventId);
  }

  @Test
  void aLaboratorySeesTheSamplesThatAreAssignedToItAndItsOwnTests() throws Exception {
    List<String> assigned = new ArrayList<>();
    for (String id : listed("quality", "/api/v1/lots")) {
      JsonNode whole = get("quality", "/api/v1/lots/" + part(id) + "/facts");
      Asking.Answer seen = asking.get("laboratory", "/api/v1/lots/" + part(id) + "/facts");
      List<String> expected = new ArrayList<>();
      for (JsonNode fact : whole.path("facts")) {
        if (fact.path("fact").path("laboratoryId").asText().equals("ENT-LAB-ONE")) {
          expected.add(fact.path("fact").path("header").path("factId").asText());
        }
      }
      if (expected.isEmpty()) {
        assertThat(seen.status()).as(id).isEqualTo(404);
      } else {
        List<String> found = new ArrayList<>();
        JSON.readTree(seen.body())
            .path("facts")
            .forEach(fact -> found.add(fact.path("fact").path("header").path("factId").asText()));
        assertThat(found).isEqualTo(expected);
        assigned.add(id);
      }
    }
    assertThat(assigned).hasSizeGreaterThan(5);
  }

  @Test
  void theLaboratoryNamesNoLotOfWhichNothingIsAssignedToTheLaboratory() throws Exception {
    Set<String> assigned = new TreeSet<>();
    Set<String> others = new TreeSet<>();
    for (String id : listed("quality", "/api/v1/lots")) {
      boolean isSeen =
          asking.get("laboratory", "/api/v1/lots/" + part(id) + "/facts").status() == 200;
      (isSeen ? assigned : others).add(id);
    }
    assertThat(others).hasSizeGreaterThan(50);
    Pattern anyOther = anyOf(others);
    Set<String> listed = new TreeSet<>();
    for (int page = 1; page <= assigned.size() / 20 + 1; page++) {
      String body = laboratory("/laboratory?page=" + page).body();
      assertThat(anyOther.matcher(body).results().map(found -> found.group())).isEmpty();
      anyOf(assigned).matcher(body).results().forEach(found -> listed.add(found.group()));
    }
    assertThat(listed).isEqualTo(assigned);
    String own = assigned.iterator().next();
    for (String path :
        List.of(
            "/laboratory/lots/%s/samples/S-%<s",
            "/laboratory/lots/%s/samples/S-%<s/germination",
            "/laboratory/lots/%s/samples/S-%<s/germination?corrects=germination-%<s")) {
      Asking.Answer seen = laboratory(path.formatted(own));
      assertThat(seen.status()).isEqualTo(200);
      assertThat(anyOther.matcher(seen.body()).find()).isFalse();
      String other = others.iterator().next();
      Asking.Answer foreign = laboratory(path.formatted(other));
      Asking.Answer none = laboratory(path.formatted("NONE-1"));
      assertThat(foreign.status()).isEqualTo(404);
      assertThat(foreign.body().replace(other, "ID"))
          .isEqualTo(none.body().replace("NONE-1", "ID"));
    }
  }

  private Asking.Answer laboratory(String path) throws Exception {
    return asking.ask(
        "GET",
        path,
        Map.of("Authorization", TestPeople.basic("laboratory"), "Accept", "text/html"),
        "");
  }

  private void assertSameAsUnknown(String path, String id) throws Exception {
    String unknown = "NO-SUCH-ID";
    Asking.Answer known = asking.get(TestPeople.WEST, path.formatted(part(id)));
    Asking.Answer none = asking.get(TestPeople.WEST, path.formatted(unknown));
    assertThat(known.status()).as(path + " " + id).isEqualTo(404);
    assertThat(known.body().replace(id, unknown)).as(path + " " + id).isEqualTo(none.body());
  }

  private List<String> everythingToAsk(String person, Set<String> own) throws Exception {
    List<String> paths =
        new ArrayList<>(
            List.of(
                "/api/v1/lots?size=1000",
                "/api/v1/lots?size=1000&sort=id",
                "/api/v1/crops?size=1000",
                "/api/v1/owed?size=1000",
                "/api/v1/hybrids",
                "/api/v1/quarantine",
                "/api/v1/advice/calibration",
                "/api/v1/account",
                "/map/2023",
                "/map/2024",
                "/map/2025",
                "/"));
    for (JsonNode hybrid : get(person, "/api/v1/hybrids")) {
      paths.add("/api/v1/hybrids/" + hybrid.path("hybridId").asText());
    }
    for (String id : own) {
      boolean isCrop = id.startsWith("C");
      String self = (isCrop ? "/api/v1/crops/" : "/api/v1/lots/") + part(id);
      paths.add(self);
      paths.add(self + "/facts");
      paths.add(self + "/owed");
      paths.add(self + "/trace?direction=back");
      paths.add(self + "/trace?direction=forward");
      if (isCrop) {
        paths.add(self + "/neighbours");
        paths.add("/api/v1/advice/inspection/" + part(id));
        paths.add("/api/v1/advice/hybridity/" + part(id));
        paths.add("/api/v1/advice/nicking/" + part(id));
      }
    }
    return paths;
  }

  private Set<String> listed(String person, String path) throws Exception {
    JsonNode page = get(person, path + "?size=1000");
    Set<String> ids = new TreeSet<>();
    page.path("items").forEach(item -> ids.add(item.path("id").asText()));
    assertThat(ids).hasSize(page.path("total").asInt());
    return ids;
  }

  private JsonNode get(String person, String path) throws Exception {
    Asking.Answer answer = asking.get(person, path);
    assertThat(answer.status()).as(path + " " + answer.body()).isEqualTo(200);
    return JSON.readTree(answer.body());
  }

  private static int sum(JsonNode counts) {
    int sum = 0;
    for (JsonNode count : counts) {
      sum += count.asInt();
    }
    return sum;
  }

  /** Any of these ids, also within the id of a fact, and not as the beginning of a longer id. */
  private static Pattern anyOf(Set<String> ids) {
    String any = String.join("|", ids.stream().map(Pattern::quote).toList());
    return Pattern.compile("(?<![A-Za-z0-9])(?:" + any + ")(?!-?[A-Za-z0-9])");
  }

  private static String part(String id) {
    return URLEncoder.encode(id, StandardCharsets.UTF_8);
  }
}
