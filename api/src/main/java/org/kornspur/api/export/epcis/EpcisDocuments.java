package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.util.List;
import org.kornspur.api.export.identity.Vocabulary;

/**
 * Documents that hold events, with their JSON-LD context.
 *
 * <p>Source: EPCIS 2.0, section 10 (JSON/JSON-LD bindings).
 */
public final class EpcisDocuments {

  /** The published context, by the address that the standard gives. */
  public static final String CONTEXT =
      "https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld";

  /** Version of the standard, in documents. */
  static final String SCHEMA_VERSION = "2.0";

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private EpcisDocuments() {}

  /** A document of events, to be kept or captured elsewhere. */
  public static ObjectNode document(List<ObjectNode> events, Instant createdAt) {
    ObjectNode document = head("EPCISDocument", createdAt);
    document.putObject("epcisBody").set("eventList", list(events));
    return document;
  }

  /** The answer to a query. */
  public static ObjectNode queryDocument(List<ObjectNode> events, Instant createdAt) {
    ObjectNode document = head("EPCISQueryDocument", createdAt);
    document
        .putObject("epcisBody")
        .putObject("queryResults")
        .put("queryName", "SimpleEventQuery")
        .putObject("resultsBody")
        .set("eventList", list(events));
    return document;
  }

  /** One event by itself: the context stands in it. */
  public static ObjectNode bareEvent(ObjectNode event) {
    ObjectNode whole = NODES.objectNode();
    whole.set("@context", context());
    whole.setAll(event);
    return whole;
  }

  /** A list of terms, as the interface gives them for what can be searched. */
  public static ObjectNode collection(List<String> members) {
    ObjectNode collection = NODES.objectNode();
    collection.set("@context", context());
    collection.put("type", "Collection");
    ArrayNode list = collection.putArray("member");
    members.forEach(list::add);
    return collection;
  }

  /**
   * The published context and our own names beside it. A whole fact is one JSON literal, because
   * its fields are the contract's and no linked data.
   */
  static ArrayNode context() {
    ArrayNode context = NODES.arrayNode();
    context.add(CONTEXT);
    ObjectNode own = context.addObject();
    own.put(Vocabulary.PREFIX, Vocabulary.NAMESPACE);
    own.putObject(Vocabulary.shortTerm("fact"))
        .put("@id", Vocabulary.term("fact"))
        .put("@type", "@json");
    return context;
  }

  private static ObjectNode head(String type, Instant createdAt) {
    ObjectNode document = NODES.objectNode();
    document.set("@context", context());
    document.put("type", type);
    document.put("schemaVersion", SCHEMA_VERSION);
    document.put("creationDate", createdAt.toString());
    return document;
  }

  private static JsonNode list(List<ObjectNode> events) {
    ArrayNode list = NODES.arrayNode(events.size());
    events.forEach(list::add);
    return list;
  }
}
