package org.kornspur.ingest.statement;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Count;
import org.kornspur.ingest.statement.Value.Day;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.OfSubject;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.ingest.statement.Value.Said;
import org.kornspur.ingest.statement.Value.Several;
import org.kornspur.ingest.statement.Value.Term;
import org.kornspur.ingest.statement.Value.Text;
import org.kornspur.ingest.statement.Value.Time;

/**
 * Statements as JSON: {@code {"code": "germination.found", "arguments": {"percent": {"amount": 92,
 * "unit": "%"}, "seeds": 400}}}. A count is a number, recorded words are a string, a list is an
 * array; all else is an object that names its kind.
 */
public final class StatementJson {
  private static final ObjectMapper MAPPER = JsonMapper.builder().build();
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private StatementJson() {}

  /** A list of statements as text. */
  public static String write(List<Coded> statements) {
    ArrayNode all = NODES.arrayNode();
    statements.forEach(statement -> all.add(node(statement)));
    return all.toString();
  }

  /**
   * The statements of a text that {@link #write} made.
   *
   * @throws IllegalArgumentException for any other
   */
  public static List<Coded> read(String text) {
    try {
      JsonNode all = MAPPER.readTree(text);
      if (!all.isArray()) {
        throw new IllegalArgumentException("No list of statements: " + text);
      }
      List<Coded> statements = new ArrayList<>();
      all.forEach(node -> statements.add(statement(node)));
      return List.copyOf(statements);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("No list of statements: " + text, e);
    }
  }

  public static ObjectNode node(Coded statement) {
    ObjectNode arguments = NODES.objectNode();
    statement
        .arguments()
        .forEach(argument -> arguments.set(argument.name(), node(argument.value())));
    ObjectNode node = NODES.objectNode().put("code", statement.code());
    node.set("arguments", arguments);
    return node;
  }

  /**
   * The statement of a JSON object.
   *
   * @throws IllegalArgumentException for what has no code
   */
  public static Coded statement(JsonNode node) {
    if (!node.path("code").isTextual()) {
      throw new IllegalArgumentException("No statement: " + node);
    }
    List<Coded.Argument> arguments = new ArrayList<>();
    node.path("arguments")
        .fields()
        .forEachRemaining(
            field -> arguments.add(new Coded.Argument(field.getKey(), value(field.getValue()))));
    return new Coded(node.path("code").asText(), List.copyOf(arguments));
  }

  private static JsonNode node(Value value) {
    if (value instanceof Count count) {
      return NODES.numberNode(count.count());
    } else if (value instanceof Text text) {
      return NODES.textNode(text.text());
    } else if (value instanceof Said said) {
      return node(said.said());
    } else if (value instanceof Several several) {
      ArrayNode all = NODES.arrayNode();
      several.values().forEach(one -> all.add(node(one)));
      return all;
    }
    ObjectNode node = NODES.objectNode();
    if (value instanceof Amount amount) {
      node.put("amount", amount.number()).put("unit", amount.unit());
    } else if (value instanceof Day day) {
      node.put("day", day.day().toString());
    } else if (value instanceof Time time) {
      node.put("time", time.time().toString());
    } else if (value instanceof Term term) {
      node.put("term", term.name()).put("of", term.type());
    } else if (value instanceof OfSubject subject) {
      node.put("subject", subject.subject().toString());
    } else if (value instanceof Fact fact) {
      node.put("fact", fact.factId());
    } else if (value instanceof Person person) {
      node.put("person", person.personId());
    }
    return node;
  }

  private static Value value(JsonNode node) {
    if (node.isIntegralNumber()) {
      return new Count(node.asLong());
    } else if (node.isTextual()) {
      return new Text(node.asText());
    } else if (node.isArray()) {
      List<Value> values = new ArrayList<>();
      node.forEach(one -> values.add(value(one)));
      return new Several(List.copyOf(values));
    } else if (node.has("code")) {
      return new Said(statement(node));
    } else if (node.has("amount")) {
      return new Amount(node.get("amount").asDouble(), node.path("unit").asText());
    } else if (node.has("day")) {
      return new Day(LocalDate.parse(node.get("day").asText()));
    } else if (node.has("time")) {
      return new Time(Instant.parse(node.get("time").asText()));
    } else if (node.has("term")) {
      return new Term(node.path("of").asText(), node.get("term").asText());
    } else if (node.has("subject")) {
      return new OfSubject(Subject.parse(node.get("subject").asText()));
    } else if (node.has("fact")) {
      return new Fact(node.get("fact").asText());
    } else if (node.has("person")) {
      return new Person(node.get("person").asText());
    }
    return new Text(node.toString());
  }
}
