package org.kornspur.api.rest.openapi;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.rest.openapi.ServedDocument.Described;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.web.DemoLoaded;

/** The OpenAPI document is held to what the demo answers, address by address. */
@ExtendWith(DemoMachine.class)
@ExtendWith(AsPerson.class)
class OpenApiIT {
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Asking asking = new Asking(DemoMachine.root());
  private ServedDocument document;
  private JsonNode raw;

  @BeforeEach
  void read() throws Exception {
    DemoLoaded.await();
    Asking.Answer served = asking.ask("GET", "/openapi?format=json", Map.of(), "");
    assertThat(served.status()).as("without a log-in").isEqualTo(200);
    raw = JSON.readTree(served.body());
    document = new ServedDocument(raw);
  }

  @Test
  void everyAnswerOfTheDemoIsAsItsSchemaSays() throws Exception {
    List<String> faults = new ArrayList<>();
    DemoIds ids = new DemoIds(asking);
    ids.know("plans", posted("createPlan", faults).at("/head/planId").asText());
    ids.know("capture", captured(ids));
    DemoExamples examples = new DemoExamples();
    Set<String> answered = new HashSet<>();
    for (Described operation : document.operations().toList()) {
      if (operation.method().equals("GET")) {
        for (String address : ids.addresses(operation.path())) {
          Asking.Answer answer = asking.get(AsPerson.EVERYTHING, address);
          if (answer.status() < 400) {
            answered.add(operation.id());
            examples.note(operation.id(), answer);
          }
          note(faults, operation, address, answer);
        }
      }
    }
    examples.writeIfAsked(ids);
    assertThat(faults).isEmpty();
    assertThat(document.operations().filter(one -> one.method().equals("GET")).map(Described::id))
        .hasSizeGreaterThan(65)
        .filteredOn(id -> !answered.contains(id))
        .as("no lot of the demo is released, and only of such a one there is a label")
        .containsExactlyInAnyOrder("lotLabelPng", "labelSheet");
  }

  /** What changes nothing, or only adds a plan, is asked with the example of the document. */
  @Test
  void requestsLikeTheExamplesAreAnsweredAsTheDocumentSays() throws Exception {
    List<String> faults = new ArrayList<>();
    for (String id : List.of("adviseMixture", "adviseCompare", "adviseHeterogeneity")) {
      posted(id, faults);
    }
    assertThat(faults).isEmpty();
  }

  /** They are facts of the demo to the last field: another content under the same id is refused. */
  @Test
  void theExamplesOfFactsAreThoseOfTheDemo() throws Exception {
    List<JsonNode> facts = new ArrayList<>();
    operation("postFacts")
        .said()
        .at("/requestBody/content/application~1json/examples")
        .forEach(example -> facts.add(example.path("value")));
    assertThat(facts).hasSizeGreaterThan(20);
    JsonNode batch =
        JSON.readTree(
            asking
                .post(AsPerson.EVERYTHING, "/api/v1/facts", JSON.writeValueAsString(facts))
                .body());
    assertThat(batch.path("alreadyKnown").asInt()).as("%s", batch).isEqualTo(facts.size());
  }

  @Test
  void everyRefusalIsAProblemDocumentOfTheDocument() throws Exception {
    List<String> faults = new ArrayList<>();
    for (Described operation : document.operations().toList()) {
      String address = operation.path().replaceAll("\\{[^}]*}", "no-such-id");
      for (String person : List.of(AsPerson.EVERYTHING, "")) {
        Map<String, String> headers = new HashMap<>();
        if (!person.isEmpty()) {
          headers.put("Authorization", TestPeople.basic(person));
        }
        boolean sends = operation.said().has("requestBody") || operation.method().equals("POST");
        if (sends) {
          headers.put("Content-Type", "application/json");
        }
        note(
            faults,
            operation,
            address + " as '" + person + "'",
            asking.ask(operation.method(), address, headers, sends ? "{}" : ""));
      }
    }
    assertThat(faults).isEmpty();
  }

  @Test
  @NeedsProgram(Program.NPM)
  void bothLintersFindNoErrorAndAGeneratedClientRuns() throws Exception {
    JsonNode found = OpenApiPackages.check(raw, URI.create(DemoMachine.root()));
    assertThat(found.path("redocly")).as("%s", found).isEmpty();
    assertThat(found.path("spectral")).as("%s", found).isEmpty();
    assertThat(found.path("brokenIsSeenBy").asInt()).as("linters that see an error").isEqualTo(2);
    assertThat(found.at("/client/lots").asInt()).as("%s", found).isGreaterThan(500);
    assertThat(found.at("/client/gates").asInt()).isPositive();
    assertThat(found.at("/client/problem").asText()).isEqualTo("/problems/invalid-fact");
  }

  @Test
  void whatDidNotChangeIsNotSentAgain() throws Exception {
    for (String address : List.of("/openapi", "/api/v1/lots?size=3", "/api/v1/rulebooks/EU")) {
      Map<String, String> headers = new HashMap<>();
      headers.put("Authorization", TestPeople.basic(AsPerson.EVERYTHING));
      Asking.Answer first = asking.ask("GET", address, headers, "");
      assertThat(first.header("ETag")).as(address).startsWith("W/\"");
      headers.put("If-None-Match", first.header("ETag"));
      Asking.Answer second = asking.ask("GET", address, headers, "");
      assertThat(second.status()).as(address).isEqualTo(304);
      assertThat(second.body()).isEmpty();
      headers.put("If-None-Match", "W/\"another\"");
      assertThat(asking.ask("GET", address, headers, "").status()).as(address).isEqualTo(200);
    }
  }

  @Test
  void whoAsksForItIsAnsweredCompressed() throws Exception {
    for (String address :
        List.of("/openapi?format=json", "/api/v1/lots", "/api/v1/lists/lots.csv")) {
      Map<String, String> headers =
          Map.of("Authorization", TestPeople.basic(AsPerson.EVERYTHING), "Accept-Encoding", "gzip");
      assertThat(asking.ask("GET", address, headers, "").header("Content-Encoding"))
          .as(address)
          .isEqualTo("gzip");
    }
    assertThat(asking.get(AsPerson.EVERYTHING, "/api/v1/lots").header("Content-Encoding"))
        .isNotEqualTo("gzip");
  }

  private JsonNode posted(String id, List<String> faults) throws Exception {
    Described operation = operation(id);
    JsonNode example = operation.said().at("/requestBody/content/application~1json/example");
    Asking.Answer answer = asking.post(AsPerson.EVERYTHING, operation.path(), example.toString());
    assertThat(answer.status()).as(answer.body()).isBetween(200, 299);
    note(faults, operation, operation.path(), answer);
    return JSON.readTree(answer.body());
  }

  private String captured(DemoIds ids) throws Exception {
    String lot = ids.addresses("/api/v1/lots/{id}/history.epcis.json").get(0);
    Asking.Answer taken =
        asking.post(
            AsPerson.EVERYTHING,
            "/api/v1/epcis/capture",
            asking.get(AsPerson.EVERYTHING, lot).body());
    assertThat(taken.status()).as(taken.body()).isEqualTo(202);
    return taken.header("Location").replaceAll(".*/", "");
  }

  private Described operation(String id) {
    return document.operations().filter(one -> one.id().equals(id)).findFirst().orElseThrow();
  }

  private void note(List<String> faults, Described operation, String address, Asking.Answer answer)
      throws Exception {
    document
        .faults(operation, answer)
        .forEach(fault -> faults.add(operation.method() + " " + address + ": " + fault));
  }
}
