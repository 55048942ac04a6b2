package org.kornspur.ingest.file;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.avro.Schema;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;

/**
 * The columns that a table of one kind of fact may have, each with the path into the fact that it
 * stands for. Elements of a list are numbered from 1 in words ({@code Lots in 1: Mass, kg}) and
 * from 0 in paths ({@code inputs[0].massKg}).
 */
final class HeaderMatcher {
  private static final Pattern NUMBER = Pattern.compile("\\d{1,4}");
  private static final String NUMBERED = "#";
  private static final String CORRECTION = "header.correction.";

  /** Paths, with {@code #} for the number of an element, by name. */
  private final Map<String, String> paths = new HashMap<>();

  private HeaderMatcher() {}

  /** Names in the contract's own words and in these languages. */
  static HeaderMatcher of(FactType type, List<TableWords> languages) {
    HeaderMatcher names = new HeaderMatcher();
    for (Leaf leaf : leaves(type)) {
      names.add(leaf.path(), leaf.path());
      names.add(leaf.path().replaceFirst("^header\\.", ""), leaf.path());
      for (TableWords words : languages) {
        names.addWithAndWithoutUnit(leaf.name(words), leaf.path());
      }
    }
    return names;
  }

  private void addWithAndWithoutUnit(String name, String path) {
    add(name, path);
    int unit = name.lastIndexOf(", ");
    if (unit > name.lastIndexOf(':')) {
      add(name.substring(0, unit), path);
    }
  }

  private void add(String name, String path) {
    paths.merge(normal(name), path, HeaderMatcher::oneOf);
  }

  /**
   * A name of two fields is of neither, or one would get what is the other's; but what a fact says
   * of itself goes before what it corrects.
   */
  private static String oneOf(String earlier, String path) {
    if (earlier.equals(path) || path.startsWith(CORRECTION)) {
      return earlier;
    }
    return earlier.startsWith(CORRECTION) ? path : "";
  }

  /** The path that a header names; empty where it names none. */
  Optional<String> path(String header) {
    String name = normal(header);
    Optional<String> plain = known(name);
    if (plain.isPresent()) {
      return plain;
    }
    Matcher number = NUMBER.matcher(name);
    boolean isPath = name.indexOf('[') >= 0;
    while (number.find()) {
      String numbered = name.substring(0, number.start()) + NUMBERED + name.substring(number.end());
      int index = Integer.parseInt(number.group()) - (isPath ? 0 : 1);
      Optional<String> path = known(numbered);
      if (path.isPresent() && index >= 0) {
        return path.map(found -> found.replace(NUMBERED, String.valueOf(index)));
      }
    }
    return Optional.empty();
  }

  private Optional<String> known(String name) {
    return Optional.ofNullable(paths.get(name)).filter(path -> !path.isEmpty());
  }

  /** A name without what does not tell names apart: case, spaces, brackets around a unit. */
  static String normal(String name) {
    return name.replace('\u00a0', ' ')
        .strip()
        .replaceFirst("\\s*[(\\[]([^()\\[\\]\\d#]+)[)\\]]$", ", $1")
        .replaceAll("\\s+", " ")
        .toLowerCase(Locale.ROOT);
  }

  /**
   * A field of a fact that one column holds.
   *
   * @param steps records and fields from the head or the fact inwards
   */
  record Leaf(String path, List<Step> steps, Schema schema, boolean required) {

    record Step(Schema record, String field, boolean numbered) {}

    /** Its name in a language, as in {@code Lots in #: Mass, kg}. */
    String name(TableWords words) {
      List<String> names = new ArrayList<>();
      for (Step step : steps) {
        names.add(
            words.field(step.record(), step.field()) + (step.numbered() ? " " + NUMBERED : ""));
      }
      return String.join(": ", names);
    }

    Leaf optional() {
      return new Leaf(path, steps, schema, false);
    }

    boolean isNumbered() {
      return steps.stream().anyMatch(Step::numbered);
    }
  }

  /** The fields of a kind of fact, those of the head first; what the server writes is left out. */
  static List<Leaf> leaves(FactType type) {
    List<Leaf> leaves = new ArrayList<>();
    for (Schema.Field field : FactHeader.getClassSchema().getFields()) {
      if (!field.name().equals("submission")) {
        addLeaves(FactHeader.getClassSchema(), field, "header." + field.name(), List.of(), leaves);
      }
    }
    for (Schema.Field field : type.schema().getFields()) {
      if (!field.name().equals("header")) {
        addLeaves(type.schema(), field, field.name(), List.of(), leaves);
      }
    }
    return leaves;
  }

  private static void addLeaves(
      Schema record, Schema.Field field, String path, List<Leaf.Step> outer, List<Leaf> into) {
    Schema schema = FieldLimits.branchOf(field.schema());
    boolean required = field.schema().getType() != Schema.Type.UNION && !field.hasDefaultValue();
    boolean isList = schema.getType() == Schema.Type.ARRAY;
    if (isList) {
      // the whole list in one cell, as the other tables of facts have it
      into.add(
          new Leaf(path, with(outer, new Leaf.Step(record, field.name(), false)), schema, false));
    }
    Schema value = isList ? FieldLimits.branchOf(schema.getElementType()) : schema;
    String at = isList ? path + "[" + NUMBERED + "]" : path;
    if (value.getType() != Schema.Type.RECORD) {
      into.add(
          new Leaf(at, with(outer, new Leaf.Step(record, field.name(), isList)), value, required));
      return;
    }
    // a correction is no thing of its own to people, so its fields have no other name before them
    List<Leaf.Step> steps = isList ? with(outer, new Leaf.Step(record, field.name(), true)) : outer;
    List<Leaf> within = new ArrayList<>();
    for (Schema.Field inner : value.getFields()) {
      addLeaves(value, inner, at + "." + inner.name(), steps, within);
    }
    within.forEach(leaf -> into.add(required ? leaf : leaf.optional()));
  }

  private static List<Leaf.Step> with(List<Leaf.Step> steps, Leaf.Step step) {
    List<Leaf.Step> all = new ArrayList<>(steps);
    all.add(step);
    return List.copyOf(all);
  }
}
