package org.kornspur.ingest.intake;

import org.apache.avro.Schema;

/**
 * Limits of a number, as the annotations {@code min}, {@code max} and {@code smallest} give them.
 * What lies beyond is refused though it could be computed with: a mass of 1e-180 g is a slip or an
 * attack, and its square is nothing.
 */
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
    append(words, "0 or at least ", schema.getObjectProp("smallest"));
    if (words.isEmpty()) {
      append(words, "at least ", schema.getObjectProp("min"));
    }
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
    return (schema.getObjectProp("min") instanceof Number min && number < min.doubleValue())
        || (schema.getObjectProp("smallest") instanceof Number smallest
            && number != 0
            && number < smallest.doubleValue())
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
