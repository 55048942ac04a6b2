package org.kornspur.ingest.file;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.avro.Schema;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.TableProblem;

/**
 * A column of a table of facts: a path into the fact, as {@code sown[1].massKg}. {@code header.}
 * may be left off.
 *
 * @param position place of the column in the row, from 0
 * @param path the path as a problem of the field names it
 * @param schema what the contract says of a value of the field
 */
record FieldPathColumn(int position, String path, List<Step> steps, Schema schema) {
  private static final Pattern STEP =
      Pattern.compile("([A-Za-z][A-Za-z0-9]{0,99})(?:\\[(\\d{1,4})])?");

  /**
   * @param index the element of a list, or -1 for the field itself
   */
  private record Step(String field, int index) {}

  /** Finds the field that a column names, or notes why there is none. */
  static Optional<FieldPathColumn> resolve(
      FactType type, String name, int position, Problems problems) {
    List<String> words = new ArrayList<>(Arrays.asList(name.split("\\.", -1)));
    if (leavesOffHeader(type, words.get(0))) {
      words.add(0, "header");
    }
    List<Step> steps = new ArrayList<>();
    Schema schema = type.schema();
    for (String word : words) {
      Matcher step = STEP.matcher(word);
      Schema.Field field =
          schema.getType() == Schema.Type.RECORD && step.matches()
              ? schema.getField(step.group(1))
              : null;
      if (field == null) {
        return unknown(type, name, problems);
      }
      schema = FieldLimits.branchOf(field.schema());
      boolean indexed = step.group(2) != null;
      if (indexed && schema.getType() != Schema.Type.ARRAY) {
        return unknown(type, name, problems);
      }
      steps.add(new Step(field.name(), indexed ? Integer.parseInt(step.group(2)) : -1));
      schema = indexed ? FieldLimits.branchOf(schema.getElementType()) : schema;
    }
    boolean wholeRecord =
        schema.getType() == Schema.Type.RECORD && steps.get(steps.size() - 1).index() < 0;
    if (wholeRecord) {
      return unknown(type, name, problems);
    }
    return Optional.of(new FieldPathColumn(position, String.join(".", words), steps, schema));
  }

  /** Puts the cell of a row into the fact that the row becomes; an empty cell puts nothing. */
  void put(String cell, ObjectNode fact, Problems problems) {
    if (cell.isEmpty()) {
      return;
    }
    ObjectNode parent = fact;
    for (Step step : steps.subList(0, steps.size() - 1)) {
      parent = step.index() < 0 ? child(parent, step.field()) : element(parent, step);
      if (parent == null) {
        givenTwice(problems);
        return;
      }
    }
    Step last = steps.get(steps.size() - 1);
    JsonNode value = CsvCell.read(schema, cell, path, problems);
    boolean put =
        last.index() < 0
            ? parent.get(last.field()) == null
            : listWithRoom(parent, last).map(list -> list.get(last.index()).isNull()).orElse(false);
    if (!put) {
      givenTwice(problems);
    } else if (last.index() < 0) {
      parent.set(last.field(), value);
    } else {
      ((ArrayNode) parent.get(last.field())).set(last.index(), value);
    }
  }

  private void givenTwice(Problems problems) {
    problems.add(path, new Given.TwoColumns(), new TableProblem.FieldTwice());
  }

  private static ObjectNode child(ObjectNode parent, String field) {
    JsonNode child = parent.get(field);
    if (child == null) {
      return parent.putObject(field);
    }
    return child instanceof ObjectNode object ? object : null;
  }

  private static ObjectNode element(ObjectNode parent, Step step) {
    Optional<ArrayNode> list = listWithRoom(parent, step);
    if (list.isEmpty()) {
      return null;
    }
    JsonNode element = list.get().get(step.index());
    if (element.isNull()) {
      ObjectNode made = list.get().objectNode();
      list.get().set(step.index(), made);
      return made;
    }
    return element instanceof ObjectNode object ? object : null;
  }

  private static Optional<ArrayNode> listWithRoom(ObjectNode parent, Step step) {
    JsonNode present = parent.get(step.field());
    if (present != null && !present.isArray()) {
      return Optional.empty();
    }
    ArrayNode list = present == null ? parent.putArray(step.field()) : (ArrayNode) present;
    while (list.size() <= step.index()) {
      list.addNull();
    }
    return Optional.of(list);
  }

  private static boolean leavesOffHeader(FactType type, String word) {
    return type.schema().getField(word) == null
        && FactHeader.getClassSchema().getField(word) != null;
  }

  private static Optional<FieldPathColumn> unknown(FactType type, String name, Problems problems) {
    problems.add(
        name,
        name,
        new TableProblem.UnknownColumn(
            type.contractName(),
            type.schema().getFields().stream()
                .map(Schema.Field::name)
                .filter(field -> !field.equals("header"))
                .toList()));
    return Optional.empty();
  }
}
