package org.kornspur.ingest.intake;

import java.math.BigDecimal;
import org.kornspur.contract.QuarantineProblem;

/**
 * One thing that is wrong with an input, in words for the person who sent it.
 *
 * @param field dotted path of the field, as in {@code sown[1].massKg}; empty where the input as a
 *     whole cannot be read
 * @param value the value as it came, shortened and with invisible characters written out
 * @param limit the limit or expectation that it broke, with its unit
 * @param remedy what to do about it
 */
public record Problem(String field, String value, String limit, String remedy) {

  private static final int SHOWN_CHARACTERS = 120;

  /** The same problem in the shape of the contract. */
  public QuarantineProblem toContract() {
    return new QuarantineProblem(field, value, limit, remedy);
  }

  /** One sentence: field, value, limit, remedy. */
  public String sentence() {
    String where = field.isEmpty() ? "The input" : field;
    return where + " is " + value + "; expected " + limit + ". " + remedy + ".";
  }

  /**
   * A value as it may be shown to a person: at most 120 characters, and every character that does
   * not show itself (controls, direction marks, halves of pairs) written as its code.
   */
  public static String shown(Object value) {
    if (value == null) {
      return "absent";
    }
    if (value instanceof Double number) {
      return plain(number);
    }
    if (value instanceof CharSequence text) {
      return "'" + visible(text, false, SHOWN_CHARACTERS) + "'";
    }
    return described(value.toString());
  }

  /** A description in place of a value, such as "3 elements": bounded too, without quotes. */
  public static String described(String words) {
    return described(words, SHOWN_CHARACTERS);
  }

  /** Like {@link #described(String)}, with another bound. */
  public static String described(String words, int mostCharacters) {
    return visible(words, false, mostCharacters);
  }

  /** Like {@link #shown}, with everything outside ASCII written as its code too. */
  static String shownAsAscii(CharSequence text) {
    return "'" + visible(text, true, SHOWN_CHARACTERS) + "'";
  }

  /** A number without exponent and without needless zeros. */
  static String plain(double number) {
    if (!Double.isFinite(number) || Math.abs(number) >= 1e15) {
      return Double.toString(number);
    }
    BigDecimal plain = BigDecimal.valueOf(number).stripTrailingZeros();
    return plain.scale() > 20 ? Double.toString(number) : plain.toPlainString();
  }

  private static String visible(CharSequence text, boolean asciiOnly, int mostCharacters) {
    StringBuilder visible = new StringBuilder();
    int index = 0;
    while (index < text.length() && index < mostCharacters) {
      int character = Character.codePointAt(text, index);
      if (TextRule.isInvisible(character) || (asciiOnly && character > 126)) {
        visible.append(String.format("\\u%04X", character));
      } else {
        visible.appendCodePoint(character);
      }
      index += Character.charCount(character);
    }
    if (index < text.length()) {
      visible.append("… (").append(text.length()).append(" characters)");
    }
    return visible.toString();
  }
}
