package org.kornspur.ingest.intake;

import java.util.List;
import org.kornspur.contract.QuarantineProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;
import org.kornspur.ingest.problem.Reason;
import org.kornspur.ingest.problem.VisibleText;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.StatementJson;

/**
 * One thing that is wrong with an input.
 *
 * @param field dotted path of the field, as in {@code sown[1].massKg}; empty where it is the input
 *     as a whole
 * @param value what was given there: one of {@link Given}, as a rule
 * @param reason why it is refused: one of {@link Reason}
 */
public record Problem(String field, Coded value, Coded reason) {

  private static final int SHOWN_CHARACTERS = Given.SHOWN_CHARACTERS;

  /**
   * A problem with a value.
   *
   * @param value as {@link Given#of} takes it
   */
  public static Problem of(String field, Object value, Reason reason) {
    return new Problem(field, Given.of(value).coded(), reason.coded());
  }

  /** A problem in English words, as earlier releases recorded them all. */
  public static Problem recorded(String field, String value, String limit, String remedy) {
    return of(field, new Given.Recorded(value), new InputProblem.Recorded(limit, remedy));
  }

  /** What is expected instead. */
  public Coded limit() {
    return new Coded(reason.code() + Reason.LIMIT, reason.arguments());
  }

  /** What to do about it. */
  public Coded remedy() {
    return new Coded(reason.code() + Reason.REMEDY, reason.arguments());
  }

  /** The same problem in the shape of the contract. */
  public QuarantineProblem toContract() {
    return QuarantineProblem.newBuilder()
        .setField(field)
        .setValue("")
        .setLimit("")
        .setRemedy("")
        .setStatements(StatementJson.write(List.of(value, reason)))
        .build();
  }

  /** The problem that the contract holds; one of an earlier release is in English. */
  public static Problem of(QuarantineProblem stored) {
    if (stored.getStatements() == null) {
      return recorded(stored.getField(), stored.getValue(), stored.getLimit(), stored.getRemedy());
    }
    List<Coded> statements = StatementJson.read(stored.getStatements());
    return new Problem(stored.getField(), statements.get(0), statements.get(1));
  }

  /**
   * A value as it may be shown to a person: at most 120 characters, and every character that does
   * not show itself (controls, direction marks, halves of pairs) written as its code.
   */
  public static String shown(CharSequence text) {
    return "'" + described(text, SHOWN_CHARACTERS) + "'";
  }

  /** Like {@link #shown}, without quotes. */
  public static String described(CharSequence text) {
    return described(text, SHOWN_CHARACTERS);
  }

  /** Like {@link #described(CharSequence)}, with another bound. */
  public static String described(CharSequence text, int mostCharacters) {
    VisibleText visible = VisibleText.of(text, false, mostCharacters);
    return visible.isWhole() ? visible.text() : visible.text() + "…";
  }
}
