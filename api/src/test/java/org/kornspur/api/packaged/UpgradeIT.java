package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.EarlierRelease;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.ingest.verify.VerifyCommand;

/**
 * A site of an earlier release is stopped and started again with this one: it goes on with the same
 * facts and signatures, and judges every dossier again while it answers. This release asks more of
 * a crop than the earlier one: what it owes is brought as a correction of its declaration. It asks
 * what laboratories and samplers are accredited for, and they are declared anew. Then every
 * standing and every release is what it was.
 */
@NeedsProgram(Program.EARLIER_RELEASE)
class UpgradeIT {
  /** Two seasons have every kind of fact; four take twice the time and show the same. */
  private static final List<String> SEASONS = List.of("2022", "2023");

  private static final Duration REST_LIMIT = Duration.ofMinutes(5);
  private static final int RELEASED = 3;
  private static final ObjectMapper JSON = new ObjectMapper();

  /** What the rules make of facts; the rules are others. Sentences may be worded better one day. */
  private static final Set<String> OF_THE_RULES =
      Set.of("gates", "inherited", "ruleNotes", "cautions", "rules", "sentence", "why", "reason");

  /** The earlier release knows no such columns, each the last of its file. */
  private static final List<String> NEW_COLUMNS = List.of(",yearsWithoutRye", ",accreditations");

  /** The earlier release reads no people file that names one of them. */
  private static final Set<Role> UNKNOWN_ROLES = EnumSet.of(Role.MONITOR);

  private static final Path ENTERPRISES =
      DemoFacts.FOLDER.resolve("2022").resolve("EnterpriseDeclared.csv");

  @Test
  @Timeout(1500)
  void shouldGoOnWithStandingsAndSignaturesOfTheEarlierRelease(@TempDir Path folder)
      throws Exception {
    Path earlier = EarlierRelease.OLDEST.jar();
    Path facts = folder.resolve("facts");
    for (String season : SEASONS) {
      copy(DemoFacts.FOLDER.resolve(season), facts.resolve(season));
    }
    try (OneMachine machine = new OneMachine(Files.createDirectory(folder.resolve("site")))) {
      TestPeople.leaveWithout(UNKNOWN_ROLES, machine.dataFolder());
      machine.running(earlier).loading(facts).start();
      machine.awaitReady();
      try (Backlog backlog = machine.backlog()) {
        machine.site().awaitRest(backlog, REST_LIMIT);
        List<String> released = release(machine.site());
        machine.site().awaitRest(backlog, REST_LIMIT);
        Map<String, JsonNode> before = everything(machine.site(), released);
        machine.stop();

        machine.running(PackagedPrograms.application()).start();
        Duration ready = machine.awaitReady();
        JsonNode rules = awaitRejudged(machine.site());
        machine.site().awaitRest(backlog, REST_LIMIT);
        Report.line(
            "Taken over from the earlier release: ready after %.1f s, %d dossiers judged again",
            ready.toMillis() / 1000.0, rules.path("dossiersJudgedAgain").asLong());

        bringAccreditations(machine.site());
        bringYearsWithoutRye(machine.site());
        machine.site().awaitRest(backlog, REST_LIMIT);
        Map<String, JsonNode> after = everything(machine.site(), released);
        assertThat(after.keySet()).isEqualTo(before.keySet());
        before.forEach(
            (address, answer) -> {
              if (isFactsOfCrop(address)) {
                assertThat(ids(after.get(address))).as(address).containsAll(ids(answer));
              } else {
                JsonNode now = after.get(address);
                assertKept(answer, now, address + owed(now));
              }
            });
        for (String address : machine.site().lines().keySet()) {
          assertThat(after.get(address).path("rules")).as(address).isEqualTo(rules.path("rules"));
        }
        for (String lot : released) {
          assertThat(after.get(lot).at("/release/step").asText()).isEqualTo("RELEASED");
          SignedByQuality.assertSignaturesVerify(machine.site(), lot);
        }
      }
      assertThat(machine.verifyRunning().exitCode()).isEqualTo(VerifyCommand.INTACT);
    }
  }

  /** Everything of every crop and lot, and the acts on those that were released. */
  private static Map<String, JsonNode> everything(Site site, List<String> released)
      throws Exception {
    Map<String, JsonNode> everything = new TreeMap<>(site.everything());
    for (String lot : released) {
      everything.put(lot + "/acts", site.answer(lot + "/acts"));
    }
    return everything;
  }

  private static List<String> release(Site site) throws Exception {
    List<String> fit = SignedByQuality.fitLots(site, RELEASED);
    for (String lot : fit) {
      SignedByQuality.sign(site, lot, "RELEASE");
    }
    return fit;
  }

  /** It is ready all the while; its health tells when the dossiers are judged again. */
  private static JsonNode awaitRejudged(Site site) throws Exception {
    int standings = site.standings();
    Deadline deadline = Deadline.in(REST_LIMIT, "every dossier is judged again");
    JsonNode rules = rules(site);
    while (rules.path("rejudging").asBoolean()
        || rules.path("dossiersJudgedAgain").asLong() < standings) {
      if (deadline.passed()) {
        throw deadline.missed(rules.toString());
      }
      Thread.sleep(100);
      rules = rules(site);
    }
    return rules;
  }

  private static JsonNode rules(Site site) throws Exception {
    Site.Answer health = site.get("/health/ready");
    assertThat(health.status()).as("%s", health).isEqualTo(200);
    for (JsonNode check : health.body().path("checks")) {
      if (check.path("name").asText().equals("rules")) {
        return check.path("data");
      }
    }
    throw new AssertionError("The health tells nothing of the rules: " + health);
  }

  /** Of an answer with gates those that are not met, for whoever reads a failure. */
  private static List<JsonNode> owed(JsonNode answer) {
    return StreamSupport.stream(answer.path("gates").spliterator(), false)
        .filter(gate -> !gate.path("state").asText().equals("MET"))
        .toList();
  }

  /** All that does not follow from the rules is there unchanged; there may be more. */
  private static void assertKept(JsonNode before, JsonNode after, String at) {
    if (before.isObject()) {
      before
          .fields()
          .forEachRemaining(
              field -> {
                if (!OF_THE_RULES.contains(field.getKey())) {
                  assertKept(
                      field.getValue(), after.path(field.getKey()), at + "." + field.getKey());
                }
              });
    } else if (before.isArray()) {
      assertThat(after.size()).as(at).isEqualTo(before.size());
      for (int item = 0; item < before.size(); item++) {
        assertKept(before.get(item), after.get(item), at + "[" + item + "]");
      }
    } else {
      assertThat(after).as(at).isEqualTo(before);
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    Files.createDirectories(to);
    try (var files = Files.walk(from)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        Path copy = to.resolve(from.relativize(file).toString());
        Files.createDirectories(copy.getParent());
        Files.writeString(copy, asTheEarlierReleaseReads(Files.readString(file)));
      }
    }
  }

  private static String asTheEarlierReleaseReads(String file) {
    boolean hasColumn =
        file.lines()
            .findFirst()
            .filter(head -> NEW_COLUMNS.stream().anyMatch(head::endsWith))
            .isPresent();
    return hasColumn
        ? file.lines()
            .map(line -> line.substring(0, line.lastIndexOf(',')))
            .collect(Collectors.joining("\n", "", "\n"))
        : file;
  }

  /** Laboratories and samplers with what the last column of their file says, which was left out. */
  private static void bringAccreditations(Site site) throws Exception {
    List<String> lines = Files.readAllLines(ENTERPRISES);
    List<String> columns = List.of(lines.get(0).split(",", -1));
    for (String line : lines.subList(1, lines.size())) {
      List<String> cells = List.of(line.split(",", -1));
      String accreditations = cells.get(columns.indexOf("accreditations"));
      if (accreditations.isEmpty()) {
        continue;
      }
      String id = cells.get(columns.indexOf("enterpriseId"));
      ObjectNode fact = JSON.createObjectNode();
      fact.put("type", "EnterpriseDeclared");
      fact.putObject("header")
          .put("factId", id + "-accredited")
          .put("recordedBy", "quality")
          .put("happenedAt", "2024-01-02T08:00:00Z")
          .put("recordedAt", "2024-01-02T09:00:00Z")
          .put("sourceDocument", "certificate of accreditation");
      fact.put("enterpriseId", id)
          .put("name", cells.get(columns.indexOf("name")))
          .put("kind", cells.get(columns.indexOf("kind")));
      ArrayNode brought = fact.putArray("accreditations");
      for (String accreditation : accreditations.split(";")) {
        String[] parts = accreditation.split("=");
        brought
            .addObject()
            .put("test", parts[0])
            .put("validFrom", parts[1])
            .put("validTo", parts[2]);
      }
      Site.Answer answer = site.post("/api/v1/facts", fact);
      assertThat(answer.status()).as("%s", answer).isEqualTo(202);
    }
  }

  private static void bringYearsWithoutRye(Site site) throws Exception {
    for (String crop : site.lines().keySet()) {
      if (!crop.startsWith("/api/v1/crops/")) {
        continue;
      }
      for (JsonNode line : site.answer(crop + "/facts").path("facts")) {
        ObjectNode fact = line.path("fact").deepCopy();
        if (fact.path("type").asText().equals("FieldCropDeclared")) {
          Site.Answer answer = site.post("/api/v1/facts", withYearsWithoutRye(fact));
          assertThat(answer.status()).as("%s", answer).isEqualTo(202);
        }
      }
    }
  }

  private static ObjectNode withYearsWithoutRye(ObjectNode declared) {
    ObjectNode header = (ObjectNode) declared.path("header");
    header
        .putObject("correction")
        .put("supersedes", header.path("factId").asText())
        .put("reason", "years without rye, as the application for certification says");
    header.remove("submission");
    header.put("factId", header.path("factId").asText() + "-years");
    declared.put("yearsWithoutRye", 6);
    return declared;
  }

  /** Corrections were brought to them. */
  private static boolean isFactsOfCrop(String address) {
    return address.startsWith("/api/v1/crops/") && address.endsWith("/facts");
  }

  private static Set<String> ids(JsonNode facts) {
    return Set.copyOf(facts.path("facts").findValuesAsText("factId"));
  }
}
