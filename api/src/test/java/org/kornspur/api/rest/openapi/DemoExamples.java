package org.kornspur.api.rest.openapi;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.kornspur.api.security.login.Asking;
import org.kornspur.ingest.contract.FactType;

/**
 * The examples of the document, written anew from the demo by {@code -Dopenapi.examples=write}.
 * Lists are cut to their first element, and what is still long is left out.
 */
final class DemoExamples {
  private static final Path FILE = Path.of("src", "main", "resources", "openapi", "examples.json");
  private static final int LONGEST = 4_000;
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final Map<String, JsonNode> answers = new TreeMap<>();

  void note(String operation, Asking.Answer answer) throws IOException {
    if (answer.header("Content-Type").startsWith("application/json")) {
      JsonNode example = cut(JSON.readTree(answer.body()));
      if (example.toString().length() <= LONGEST) {
        answers.putIfAbsent(operation, example);
      }
    }
  }

  void writeIfAsked(DemoIds ids) throws IOException, InterruptedException {
    if (!"write".equals(System.getProperty("openapi.examples"))) {
      return;
    }
    ObjectNode all = (ObjectNode) JSON.readTree(FILE.toFile());
    all.set("answers", JSON.valueToTree(answers));
    all.set("facts", JSON.valueToTree(facts(ids)));
    Files.writeString(FILE, JSON.writeValueAsString(all) + "\n");
  }

  private static Map<String, JsonNode> facts(DemoIds ids) throws IOException, InterruptedException {
    Map<String, JsonNode> shortest = new TreeMap<>();
    for (String kind : List.of("lots", "crops")) {
      for (JsonNode line : ids.json("/api/v1/" + kind + "?size=1000").path("items")) {
        note(shortest, ids.json(line.path("href").asText() + "/facts"));
      }
    }
    for (String other :
        List.of("/hybrids/HYB-01", "/enterprises/ENT-MULT-EAST", "/pollen-sources/NB-S01")) {
      note(shortest, ids.json("/api/v1" + other));
    }
    return shortest;
  }

  private static void note(Map<String, JsonNode> shortest, JsonNode dossier) {
    for (JsonNode shown : dossier.path("facts")) {
      ObjectNode fact = shown.path("fact").deepCopy();
      boolean isAct = FactType.named(fact.path("type").asText()).orElseThrow().isAct();
      withoutNulls(fact);
      if (!isAct && shown.path("counts").asBoolean() && !fact.at("/header").has("correction")) {
        shortest.merge(
            fact.path("type").asText(),
            fact,
            (one, other) -> other.toString().length() < one.toString().length() ? other : one);
      }
    }
  }

  private static void withoutNulls(JsonNode node) {
    if (node instanceof ObjectNode object) {
      List<String> empty =
          object.properties().stream()
              .filter(member -> member.getValue().isNull())
              .map(Map.Entry::getKey)
              .collect(Collectors.toList());
      object.remove(empty);
    }
    node.forEach(DemoExamples::withoutNulls);
  }

  private static JsonNode cut(JsonNode node) {
    if (node instanceof ArrayNode array) {
      while (array.size() > 1) {
        array.remove(array.size() - 1);
      }
    }
    if (node instanceof ObjectNode object) {
      object.properties().stream()
          .filter(member -> !member.getKey().equals("fact")) // the contract asks for whole lists
          .forEach(member -> cut(member.getValue()));
    } else {
      node.forEach(DemoExamples::cut);
    }
    return node;
  }
}
