package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.Waiting;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.TestPeople;

/**
 * Walks every address with every role and with none. Once against the table of the program, so that
 * none is forgotten, and once against a table written by hand from what each role is for, so that
 * the table itself is held.
 */
@ExtendWith(EmptyMachine.class)
class EveryAddressIT {
  private static final String NOBODY = "";

  /** What the filter says, as against a resource that refuses for a reason of its own. */
  private static final List<String> REFUSALS =
      List.of("/problems/forbidden", "/problems/not-logged-in");

  private final URI root = URI.create(EmptyMachine.root());

  private Asking asking;

  @BeforeEach
  void begin() throws Exception {
    asking = new Asking(root.toString());
    Waiting.until(() -> asking.ask("GET", "/health/ready", Map.of(), "").status() == 200);
  }

  @Test
  void everyResourceMethodSaysWhatItNeeds() {
    assertThat(Address.all()).hasSizeGreaterThan(35);
    assertThat(Address.all()).filteredOn(address -> address.needs().isEmpty()).isEmpty();
  }

  @Test
  void everyAddressLetsInWhomTheTableNamesAndNobodyElse() throws Exception {
    List<String> wrong = new ArrayList<>();
    for (Address address : Address.all()) {
      for (Role role : Role.values()) {
        boolean may = address.needs().orElseThrow().isOf(role);
        note(wrong, address, TestPeople.of(role), may);
      }
      note(wrong, address, NOBODY, address.needs().orElseThrow().isOfAnybody());
    }
    assertThat(wrong).isEmpty();
  }

  private void note(List<String> wrong, Address address, String person, boolean may)
      throws Exception {
    Asking.Answer answer = ask(address, person);
    boolean refused =
        REFUSALS.stream().anyMatch(type -> answer.body().startsWith("{\"type\":\"" + type + "\""));
    if (answer.status() >= 500 || refused == may) {
      wrong.add(
          "%s %s as '%s' may=%s: %d %s"
              .formatted(
                  address.method(), address.path(), person, may, answer.status(), answer.body()));
    }
  }

  private Asking.Answer ask(Address address, String person) throws Exception {
    Map<String, String> headers = new HashMap<>();
    if (!person.isEmpty()) {
      headers.put("Authorization", TestPeople.basic(person));
    }
    address.contentType().ifPresent(type -> headers.put("Content-Type", type));
    // no text/html, with which a browser would be led to the log-in page
    headers.put("Accept", address.accept().filter(type -> !type.contains("html")).orElse("*/*"));
    return asking.ask(
        address.method(), address.path(), headers, address.contentType().isPresent() ? "{}" : "");
  }

  /** What a program that reads metrics is answered otherwise than 403. */
  private static final Map<String, Integer> OF_MONITOR =
      Map.ofEntries(
          Map.entry("/metrics", 200),
          Map.entry("/health/live", 200),
          Map.entry("/health/ready", 200),
          Map.entry("/openapi", 200),
          Map.entry("/asyncapi", 200),
          Map.entry("/api/v1/account", 200),
          Map.entry("/notifications", 200),
          Map.entry("/help", 200),
          Map.entry("/help/rules", 200),
          Map.entry("/help/none", 404),
          Map.entry("/login", 200),
          Map.entry("/no-such-place", 404),
          Map.entry("/helpers", 404));

  /** One line: method, path, and the status for each role in turn, then for nobody. */
  private record Line(
      String method,
      String path,
      int multiplier,
      int inspector,
      int laboratory,
      int quality,
      int auditor,
      int administrator,
      int nobody) {

    int of(Role role) {
      return switch (role) {
        case MULTIPLIER -> multiplier;
        case INSPECTOR -> inspector;
        case LABORATORY -> laboratory;
        case QUALITY -> quality;
        case AUDITOR -> auditor;
        case ADMINISTRATOR -> administrator;
        case MONITOR -> OF_MONITOR.getOrDefault(path, 403);
      };
    }
  }

  /** Written by hand from what each role is for; 404 and 400 mean that the caller came in. */
  private static final List<Line> BY_HAND =
      List.of(
          new Line("GET", "/", 200, 200, 200, 200, 200, 200, 401),
          new Line("GET", "/health/live", 200, 200, 200, 200, 200, 200, 200),
          new Line("GET", "/health/ready", 200, 200, 200, 200, 200, 200, 200),
          new Line("GET", "/metrics", 403, 403, 403, 403, 403, 200, 401),
          new Line("GET", "/openapi", 200, 200, 200, 200, 200, 200, 200),
          new Line("GET", "/asyncapi", 200, 200, 200, 200, 200, 200, 200),
          new Line("GET", "/internal/dossier?key=lot:x", 403, 403, 403, 403, 403, 403, 403),
          new Line("GET", "/internal/register?key=x", 403, 403, 403, 403, 403, 403, 403),
          new Line("GET", "/internal/positions?key=x", 403, 403, 403, 403, 403, 403, 403),
          new Line("GET", "/no-such-place", 404, 404, 404, 404, 404, 404, 401),
          new Line("GET", "/api/v1/lots", 200, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/lots/none", 404, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/api/v1/lots/none/facts", 404, 404, 404, 404, 404, 403, 401),
          new Line("GET", "/api/v1/lots/none/trace", 404, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/api/v1/lots/none/proof", 403, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/api/v1/log", 403, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/crops", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/crops/none/ground.geojson", 404, 404, 403, 404, 404, 403, 401),
          new Line("GET", "/api/v1/lists/fields-2026.geojson", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/owed", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/changes", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/quarantine", 200, 200, 200, 200, 200, 403, 401),
          new Line("GET", "/api/v1/rulebooks", 200, 200, 200, 200, 200, 200, 401),
          new Line("GET", "/api/v1/advice/calibration", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/seasons", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/seasons/multipliers", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/laboratories", 403, 403, 200, 200, 200, 403, 401),
          new Line(
              "GET", "/api/v1/laboratories/none/control-chart", 403, 403, 404, 404, 404, 403, 401),
          new Line("GET", "/seasons", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/seasons/multipliers", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/laboratories", 403, 403, 200, 200, 200, 403, 401),
          new Line("GET", "/laboratories/none", 403, 403, 404, 404, 404, 403, 401),
          new Line("POST", "/api/v1/facts", 422, 422, 422, 422, 403, 403, 401),
          new Line("POST", "/api/v1/quarantine/none/discard", 400, 400, 400, 400, 403, 403, 401),
          new Line("GET", "/api/v1/people", 403, 403, 403, 403, 200, 200, 401),
          new Line("GET", "/api/v1/people-journal", 403, 403, 403, 403, 200, 200, 401),
          new Line("POST", "/api/v1/people", 403, 403, 403, 403, 403, 400, 401),
          new Line("POST", "/api/v1/people/none/disable", 403, 403, 403, 403, 403, 404, 401),
          new Line("GET", "/people", 403, 403, 403, 403, 200, 200, 401),
          new Line("GET", "/people/journal", 403, 403, 403, 403, 200, 200, 401),
          new Line("GET", "/people/new", 403, 403, 403, 403, 403, 200, 401),
          new Line("GET", "/people/person/none", 403, 403, 403, 403, 403, 404, 401),
          new Line("GET", "/people/person/auditor", 403, 403, 403, 403, 403, 200, 401),
          new Line("GET", "/site", 403, 403, 403, 403, 200, 200, 401),
          new Line("GET", "/first-steps", 403, 403, 403, 200, 403, 200, 401),
          new Line("POST", "/api/v1/backups", 403, 403, 403, 403, 403, 409, 401),
          new Line("GET", "/api/v1/account", 200, 200, 200, 200, 200, 200, 401),
          new Line("GET", "/notifications", 200, 200, 200, 200, 200, 200, 401),
          new Line("GET", "/laboratory", 403, 403, 200, 403, 403, 403, 401),
          new Line("GET", "/laboratory/germination", 403, 403, 200, 403, 403, 403, 401),
          new Line(
              "GET",
              "/laboratory/germination/line?lotId=none&sampleId=none",
              403,
              403,
              404,
              403,
              403,
              403,
              401),
          new Line("GET", "/laboratory/lots/none/samples/none", 403, 403, 404, 403, 403, 403, 401),
          new Line(
              "GET",
              "/laboratory/lots/none/samples/none/purity",
              403,
              403,
              404,
              403,
              403,
              403,
              401),
          new Line("GET", "/search?q=no-such-name", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/search?q=no-such-name", 200, 200, 403, 200, 200, 403, 401),
          new Line("GET", "/map/2026", 200, 200, 403, 200, 200, 403, 401),
          new Line(
              "GET",
              "/map/2026/distance?from=crop:none&to=crop:none",
              404,
              404,
              403,
              404,
              404,
              403,
              401),
          new Line("GET", "/map/2026/source?from=none", 404, 404, 403, 404, 403, 403, 401),
          new Line("GET", "/map/ground/picture", 404, 404, 403, 404, 404, 403, 401),
          new Line("GET", "/record", 200, 200, 200, 200, 403, 403, 401),
          new Line("GET", "/record/harvest", 200, 403, 403, 200, 403, 403, 401),
          new Line("GET", "/record/moisture-test", 403, 403, 200, 200, 403, 403, 401),
          new Line("GET", "/record/none", 404, 404, 404, 404, 403, 403, 401),
          new Line("GET", "/files", 200, 200, 200, 200, 403, 403, 401),
          new Line("GET", "/files/templates/Harvest.xlsx", 200, 200, 200, 200, 403, 403, 401),
          new Line("GET", "/files/none", 404, 404, 404, 404, 403, 403, 401),
          new Line("GET", "/release", 403, 403, 403, 200, 403, 403, 401),
          new Line("GET", "/desk", 403, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/desk/causes/none", 403, 403, 403, 404, 404, 403, 401),
          new Line("POST", "/api/v1/release-acts", 403, 403, 403, 400, 403, 403, 401),
          new Line("GET", "/plan", 403, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/plan/new", 403, 403, 403, 200, 403, 403, 401),
          new Line("GET", "/api/v1/plans", 403, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/api/v1/plans/none", 403, 403, 403, 404, 404, 403, 401),
          new Line("POST", "/api/v1/plans", 403, 403, 403, 400, 403, 403, 401),
          new Line("POST", "/api/v1/plans/none/approval", 403, 403, 403, 400, 403, 403, 401),
          new Line("GET", "/plan/comparison", 403, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/plan/none/fields", 403, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/plan/none/flow", 403, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/api/v1/plan-comparison", 403, 403, 403, 400, 400, 403, 401),
          new Line("GET", "/api/v1/plans/none/flow", 403, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/api/v1/plans/none/fields/2027", 403, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/audit", 403, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/audit/proof", 403, 403, 403, 200, 200, 403, 401),
          new Line("GET", "/audit/packs/none", 403, 403, 403, 404, 404, 403, 401),
          new Line("GET", "/help", 200, 200, 200, 200, 200, 200, 200),
          new Line("GET", "/help/rules", 200, 200, 200, 200, 200, 200, 200),
          new Line("GET", "/help/none", 404, 404, 404, 404, 404, 404, 404),
          new Line("GET", "/helpers", 404, 404, 404, 404, 404, 404, 401),
          new Line("GET", "/login", 200, 200, 200, 200, 200, 200, 200));

  @Test
  void theChiefAddressesAnswerEachRoleAsItsWorkAsks() throws Exception {
    List<String> wrong = new ArrayList<>();
    for (Line line : BY_HAND) {
      for (Role role : Role.values()) {
        note(wrong, line, Optional.of(role), line.of(role));
      }
      note(wrong, line, Optional.empty(), line.nobody());
    }
    assertThat(wrong).isEmpty();
  }

  /**
   * Written by hand from what each role is for. Quality begins with the first steps until there is
   * a lot, which other tests of the same machine may have brought.
   */
  @Test
  void eachRoleBeginsWhereItsWorkIs() throws Exception {
    Map<Role, List<String>> first =
        Map.of(
            Role.MULTIPLIER, List.of("/field-book"),
            Role.INSPECTOR, List.of("/field-book"),
            Role.LABORATORY, List.of("/laboratory"),
            Role.QUALITY, List.of("/desk", "/first-steps"),
            Role.AUDITOR, List.of("/trace"),
            Role.ADMINISTRATOR, List.of("/people"));
    for (Role role : first.keySet()) {
      Map<String, String> headers =
          Map.of("Accept", "text/html", "Authorization", TestPeople.basic(TestPeople.of(role)));
      Asking.Answer answer = asking.ask("GET", "/", headers, "");
      assertThat(answer.status()).as("%s", role).isEqualTo(303);
      String led = URI.create(answer.header("Location")).getPath();
      assertThat(led).as("%s", role).isIn(first.get(role));
      assertThat(asking.ask("GET", led, headers, "").status()).as("%s", role).isEqualTo(200);
    }
  }

  private void note(List<String> wrong, Line line, Optional<Role> role, int expected)
      throws Exception {
    Map<String, String> headers = new HashMap<>(Map.of("Accept", "*/*"));
    role.ifPresent(of -> headers.put("Authorization", TestPeople.basic(TestPeople.of(of))));
    boolean posts = line.method().equals("POST");
    if (posts) {
      headers.put("Content-Type", "application/json");
    }
    int status = asking.ask(line.method(), line.path(), headers, posts ? "{}" : "").status();
    if (status != expected) {
      wrong.add(
          "%s %s as %s: %d, expected %d"
              .formatted(line.method(), line.path(), role, status, expected));
    }
  }

  @Test
  void otherWaysOfWritingAnAddressLeadNowhereElse() throws Exception {
    for (String path :
        List.of(
            "//metrics",
            "/metrics/",
            "/%6detrics",
            "/x/../metrics",
            "/metrics;a=b",
            "/%69nternal/dossier?key=lot:x",
            "/internal;x/dossier?key=lot:x",
            "/api/v1/lots;x=y",
            "//api/v1/lots",
            "/login/../api/v1/lots",
            "/assets/../api/v1/lots",
            "/help/../api/v1/lots",
            "/help/%2e%2e/metrics",
            "/assets/%2e%2e/metrics",
            "/health/../metrics",
            "/health/ready/../../metrics")) {
      assertThat(asking.ask("GET", path, Map.of(), "").status())
          .as(path + " as nobody")
          .isIn(401, 403, 404, 400);
      assertThat(asking.get(TestPeople.of(Role.LABORATORY), path).status())
          .as(path + " as laboratory")
          .isIn(403, 404, 400);
    }
  }

  @Test
  void methodsThatNoResourceTakesAreNoWayIn() throws Exception {
    for (String method : List.of("OPTIONS", "HEAD", "TRACE", "PUT", "DELETE", "PATCH")) {
      assertThat(asking.ask(method, "/api/v1/lots", Map.of(), "").status())
          .as(method)
          .isEqualTo(401);
    }
  }
}
