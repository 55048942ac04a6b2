package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.EventProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.ingest.intake.Problem;

/**
 * The events of a document that somebody sent, and under which names our extensions stand in it.
 *
 * @param events as they came
 * @param factKeys names that a whole fact may stand under
 */
public record CaptureDocument(List<JsonNode> events, Set<String> factKeys) {

  public static final int MOST_EVENTS = 10_000;

  /**
   * Takes an EPCISDocument, or the document that answers a query, apart.
   *
   * @throws ApiProblem if it is neither, or holds too many events
   */
  public static CaptureDocument ofDocument(JsonNode document) {
    JsonNode body = document.path("epcisBody");
    JsonNode list =
        switch (document.path("type").asText()) {
          case "EPCISDocument" -> body.path("eventList");
          case "EPCISQueryDocument" ->
              body.path("queryResults").path("resultsBody").path("eventList");
          default ->
              throw notADocument(
                  "type", document.path("type").asText(null), new EventProblem.NoDocument());
        };
    String version = document.path("schemaVersion").asText("");
    if (!version.startsWith("2.")) {
      throw notADocument(
          "schemaVersion", version.isEmpty() ? null : version, new EventProblem.OtherVersion());
    }
    if (!list.isArray() || list.isEmpty()) {
      throw notADocument(
          "epcisBody.eventList",
          list.isMissingNode() ? null : new RequestGiven.Events(list.size()),
          new EventProblem.NoEvents());
    }
    if (list.size() > MOST_EVENTS) {
      throw notADocument(
          "epcisBody.eventList",
          new RequestGiven.Events(list.size()),
          new EventProblem.TooManyEvents(MOST_EVENTS));
    }
    List<JsonNode> events = new ArrayList<>();
    list.forEach(events::add);
    return new CaptureDocument(List.copyOf(events), factKeys(document.path("@context")));
  }

  /** One event that was sent by itself. */
  public static CaptureDocument ofEvent(JsonNode event) {
    return new CaptureDocument(List.of(event), factKeys(event.path("@context")));
  }

  private static ApiProblem notADocument(String field, Object value, EventProblem reason) {
    return new ApiProblem(ProblemKind.UNREADABLE_BODY, Problem.of(field, value, reason));
  }

  private static Set<String> factKeys(JsonNode context) {
    Set<String> keys = new LinkedHashSet<>();
    keys.add(Vocabulary.shortTerm("fact"));
    keys.add(Vocabulary.term("fact"));
    JsonNode parts =
        context.isArray() ? context : JsonNodeFactory.instance.arrayNode().add(context);
    for (JsonNode part : parts) {
      for (Map.Entry<String, JsonNode> name : part.properties()) {
        if (Vocabulary.NAMESPACE.equals(name.getValue().asText())) {
          keys.add(name.getKey() + ":fact");
        }
      }
    }
    return Set.copyOf(keys);
  }
}
