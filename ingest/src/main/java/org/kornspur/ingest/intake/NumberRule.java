package org.kornspur.ingest.intake;

import org.apache.avro.Schema;

/** Limits of a number, as the annotations {@code min}, {@code max} and {@code above} give them. */
final class NumberRule {

  private static final String DEFAULT_REMEDY = "Check the figure against its document";

  private NumberRule() {}

  static void check(Schema schema, double number, String path, Problems into) {
    if (!Double.isFinite(number) || isOutside(schema, number)) {
      into.add(path, number, limits(schema), remedy(schema));
    }
  }

  /** The limits in words, with the unit. */
  static String limits(Schema schema) {
    StringBuilder words = new StringBuilder();
    append(words, "above ", schema.getObjectProp("above"));
    append(words, "at least ", schema.getObjectProp("min"));
    append(words, "at most ", schema.getObjectProp("max"));
    if (words.isEmpty()) {
      words.append("a finite number");
    }
    String unit = schema.getProp("unit");
    return unit == null ? words.toString() : words + " " + unit;
  }

  static String remedy(Schema schema) {
    String remedy = schema.getProp("remedy");
    return remedy == null ? DEFAULT_REMEDY : remedy;
  }

  private static boolean isOutside(Schema schema, double number) {
    return (schema.getObjectProp("above") instanceof Number above && number <= above.doubleValue())
        || (schema.getObjectProp("min") instanceof Number min && number < min.doubleValue())
        || (schema.getObjectProp("max") instanceof Number max && number > max.doubleValue());
  }

  private static void append(StringBuilder words, String relation, Object limit) {
    if (limit instanceof Number number) {
      words
          .append(words.isEmpty() ? "" : " and ")
          .append(relation)
          .append(Problem.plain(number.doubleValue()));
    }
  }
}
