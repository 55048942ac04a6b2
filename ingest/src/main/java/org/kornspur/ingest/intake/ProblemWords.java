package org.kornspur.ingest.intake;

import java.math.MathContext;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.avro.Schema;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.problem.Remedy;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Coded.Argument;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Count;
import org.kornspur.ingest.statement.Value.Text;
import org.kornspur.ingest.text.PlainFormat;
import org.kornspur.ingest.text.StatementWriter;
import org.kornspur.ingest.text.TextBundle;
import org.kornspur.ingest.text.ValueFormat;

/** Writes problems in one language. */
public final class ProblemWords {
  private final StatementWriter words;

  /**
   * Words of these texts.
   *
   * @param texts those of {@link #texts} and of all other problems that are to be written
   */
  public ProblemWords(TextBundle texts, ValueFormat form) {
    words = new StatementWriter(texts, form);
  }

  /** Words for the problems of the intake, with every digit of their numbers. */
  public static ProblemWords in(Locale locale, ZoneId zone) {
    TextBundle texts = texts(locale);
    return new ProblemWords(texts, new PlainFormat(texts, zone, MathContext.UNLIMITED));
  }

  /** The texts of the problems of the intake. In English the contract itself says its remedies. */
  public static TextBundle texts(Locale locale) {
    TextBundle texts = TextBundle.read(locale, ProblemWords.class, "text/problems");
    return locale.getLanguage().equals(Locale.ENGLISH.getLanguage())
        ? texts.and(TextBundle.of(locale, contractRemedies()))
        : texts;
  }

  /** A statement of its own. */
  public String plain(Statement statement) {
    return plain(statement.coded());
  }

  public String plain(Coded statement) {
    return words.of(statement);
  }

  /** What was given. */
  public String value(Problem problem) {
    return words.of(problem.value());
  }

  /** What is expected instead. */
  public String limit(Problem problem) {
    return words.of(problem.limit());
  }

  /** What to do about it. */
  public String remedy(Problem problem) {
    return words.of(problem.remedy());
  }

  /** One sentence of field, value and limit, and the remedy. */
  public String sentence(Problem problem) {
    return sentence(problem, "problem.of-field");
  }

  /** The same where it stands beside the field. */
  public String besideField(Problem problem) {
    return sentence(problem, "problem.at-field");
  }

  private String sentence(Problem problem, String ofField) {
    return words.of(
        new Coded(
            problem.field().isEmpty() ? "problem.of-input" : ofField,
            List.of(
                new Argument("field", new Text(problem.field())),
                new Argument("value", new Text(value(problem))),
                new Argument("limit", new Text(limit(problem))),
                new Argument("remedy", new Text(remedy(problem))))));
  }

  /** The sentence of the first, and how many more there are; empty where there is none. */
  public String summary(List<Problem> problems) {
    if (problems.isEmpty()) {
      return "";
    }
    String first = sentence(problems.get(0));
    return problems.size() == 1
        ? first
        : words.of(
            new Coded(
                "problem.further",
                List.of(
                    new Argument("sentence", new Text(first)),
                    new Argument("count", new Count(problems.size() - 1)))));
  }

  private static Map<String, String> contractRemedies() {
    Map<String, String> remedies = new HashMap<>();
    Arrays.stream(FactType.values()).forEach(type -> addRemedies(type.schema(), remedies));
    return remedies;
  }

  private static void addRemedies(Schema record, Map<String, String> remedies) {
    for (Schema.Field field : record.getFields()) {
      Schema schema = valueOf(field.schema());
      if (schema.getType() == Schema.Type.RECORD) {
        addRemedies(schema, remedies);
      } else if (schema.getProp("remedy") != null) {
        remedies.put(
            new Remedy(record.getName(), field.name()).coded().code(), schema.getProp("remedy"));
      }
    }
  }

  /** The schema of a value, or of an element of a list. */
  private static Schema valueOf(Schema schema) {
    return switch (schema.getType()) {
      case UNION -> valueOf(FieldLimits.branchOf(schema));
      case ARRAY -> valueOf(schema.getElementType());
      default -> schema;
    };
  }
}
