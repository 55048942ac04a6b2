package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.ingest.intake.Problem;

/**
 * The events of a document that somebody sent, and under which names our extensions stand in it.
 *
 * @param events as they came
 * @param factKeys names that a whole fact may stand under
 */
public record CaptureDocument(List<JsonNode> events, Set<String> factKeys) {

  /** Most events of one document. */
  public static final int MOST_EVENTS = 10_000;

  /** A document that cannot be read as one. */
  public static final class NotADocument extends Exception {
    private static final long serialVersionUID = 1L;
    private final transient Problem problem;

    NotADocument(String field, String value, String limit, String remedy) {
      super(limit);
      this.problem = new Problem(field, Problem.described(value), limit, remedy);
    }

    public Problem problem() {
      return problem;
    }
  }

  /**
   * Takes an EPCISDocument, or the document that answers a query, apart.
   *
   * @throws NotADocument if it is neither, or holds too many events
   */
  public static CaptureDocument ofDocument(JsonNode document) throws NotADocument {
    JsonNode body = document.path("epcisBody");
    JsonNode list =
        switch (document.path("type").asText()) {
          case "EPCISDocument" -> body.path("eventList");
          case "EPCISQueryDocument" ->
              body.path("queryResults").path("resultsBody").path("eventList");
          default ->
              throw new NotADocument(
                  "type",
                  document.path("type").asText("absent"),
                  "EPCISDocument (EPCIS 2.0, section 10)",
                  "Send an EPCIS 2.0 document in JSON; single events go to /epcis/events");
        };
    String version = document.path("schemaVersion").asText("");
    if (!version.startsWith("2.")) {
      throw new NotADocument(
          "schemaVersion",
          version.isEmpty() ? "absent" : version,
          "2.0",
          "Send the document in version 2.0 of EPCIS");
    }
    if (!list.isArray() || list.isEmpty()) {
      throw new NotADocument(
          "epcisBody.eventList",
          list.isMissingNode() ? "absent" : Counted.of(list.size(), "event(s)"),
          "a list of at least one event",
          "Put the events into epcisBody.eventList");
    }
    if (list.size() > MOST_EVENTS) {
      throw new NotADocument(
          "epcisBody.eventList",
          Counted.of(list.size(), "event(s)"),
          "at most " + MOST_EVENTS + " events a document",
          "Divide the document and send it in parts");
    }
    List<JsonNode> events = new ArrayList<>();
    list.forEach(events::add);
    return new CaptureDocument(List.copyOf(events), factKeys(document.path("@context")));
  }

  /** One event that was sent by itself. */
  public static CaptureDocument ofEvent(JsonNode event) {
    return new CaptureDocument(List.of(event), factKeys(event.path("@context")));
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
