package org.kornspur.ingest.intake;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FieldPath;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.ListProblem;
import org.kornspur.ingest.problem.ValueProblem;

/**
 * Checks each value of a record against the limits that its schema carries, and knows nothing of
 * any particular fact type.
 */
public final class FieldLimits {

  /** Most elements of any list in a fact; an outline of a field needs a few hundred corners. */
  public static final int MOST_ELEMENTS = 10_000;

  /**
   * Most elements of a list that names lots or crops, since each of them is sent the whole fact.
   * Common practice, no source: nobody puts more lots together in one step.
   */
  public static final int MOST_NAMED = 500;

  private FieldLimits() {}

  /**
   * Checks a value and all that it holds.
   *
   * @param at where the value stands
   * @return whether every value that the schema demands is there, so that rules which tie fields
   *     together may read them
   */
  static boolean check(Schema schema, Object value, FieldPath at, Problems into) {
    return switch (schema.getType()) {
      case UNION -> value == null || check(branchOf(schema), value, at, into);
      case RECORD ->
          value == null ? missing(schema, at, into) : checkRecord(schema, value, at, into);
      case ARRAY -> value == null ? missing(schema, at, into) : checkList(schema, value, at, into);
      default -> {
        if (value == null) {
          yield missing(schema, at, into);
        }
        checkValue(schema, value, at, into);
        yield true;
      }
    };
  }

  /**
   * Checks one value that holds no others: a number, text, id, date or instant.
   *
   * @param schema of the value itself, not of a union around it
   * @param value in Avro's Java form: String, Integer, Double, Instant, LocalDate …
   */
  public static void checkValue(Schema schema, Object value, FieldPath at, Problems into) {
    if (value instanceof Instant instant) {
      TimeRule.check(instant, at.path(), into);
    } else if (value instanceof LocalDate day) {
      TimeRule.check(day, at.path(), into);
    } else if (value instanceof Number number) {
      NumberRule.check(schema, number.doubleValue(), at, into);
    } else if (value instanceof CharSequence text) {
      String kind = schema.getProp("names");
      if (kind != null) {
        IdRule.check(text.toString(), kind, at.path(), into);
      } else if (schema.getProp("writtenBy") == null) {
        // what the program itself wrote into an act stands under its signature
        TextRule.check(text.toString(), at.path(), into);
      }
    }
  }

  /**
   * What is wrong with the numbers and days of a fact that was taken in earlier, perhaps under
   * wider limits; empty where all lie within the limits of today.
   */
  public static List<Problem> beyond(SpecificRecord fact) {
    Problems problems = new Problems();
    checkNumbers(fact.getSchema(), fact, FieldPath.FACT, problems);
    return problems.list();
  }

  private static void checkNumbers(Schema schema, Object value, FieldPath at, Problems into) {
    if (value == null) {
      return;
    }
    switch (schema.getType()) {
      case UNION -> checkNumbers(branchOf(schema), value, at, into);
      case RECORD -> {
        IndexedRecord branch = (IndexedRecord) value;
        for (Schema.Field field : schema.getFields()) {
          checkNumbers(field.schema(), branch.get(field.pos()), at.to(schema, field.name()), into);
        }
      }
      case ARRAY -> {
        int index = 0;
        for (Object element : (Collection<?>) value) {
          checkNumbers(schema.getElementType(), element, at.element(index), into);
          index++;
        }
      }
      case INT, LONG, DOUBLE -> checkValue(schema, value, at, into);
      default -> {
        // texts, choices and flags have no limits of this kind
      }
    }
  }

  /** Checks the number of elements of a list. */
  public static void checkSize(Schema listSchema, int size, FieldPath at, Problems into) {
    Object least = listSchema.getObjectProp("minItems");
    if (least instanceof Number min && size < min.intValue()) {
      into.add(at.path(), new Given.ListOf(size), new ListProblem.TooFew(min.intValue()));
    }
    int most = most(listSchema);
    if (size > most) {
      into.add(
          at.path(),
          new Given.ListOf(size),
          most == MOST_NAMED ? new ListProblem.TooManyNamed(most) : new ListProblem.TooMany(most));
    }
  }

  /** Most elements of a list. */
  public static int most(Schema listSchema) {
    return SubjectsNamed.isNamedBy(listSchema.getElementType()) ? MOST_NAMED : MOST_ELEMENTS;
  }

  /** The type of a value; of one that may be left out the type that it has beside null. */
  public static Schema branchOf(Schema schema) {
    if (schema.getType() != Schema.Type.UNION) {
      return schema;
    }
    return schema.getTypes().stream()
        .filter(type -> type.getType() != Schema.Type.NULL)
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("The contract has a union of null alone"));
  }

  private static boolean checkRecord(Schema schema, Object value, FieldPath at, Problems into) {
    IndexedRecord branch = (IndexedRecord) value;
    boolean whole = true;
    for (Schema.Field field : schema.getFields()) {
      whole &= check(field.schema(), branch.get(field.pos()), at.to(schema, field.name()), into);
    }
    return whole;
  }

  private static boolean checkList(Schema schema, Object value, FieldPath at, Problems into) {
    Collection<?> elements = (Collection<?>) value;
    checkSize(schema, elements.size(), at, into);
    boolean whole = true;
    int index = 0;
    for (Object element : elements) {
      whole &= check(schema.getElementType(), element, at.element(index), into);
      index++;
    }
    return whole;
  }

  private static boolean missing(Schema schema, FieldPath at, Problems into) {
    into.add(at.path(), null, new ValueProblem.Missing(Expected.of(schema)));
    return false;
  }
}
