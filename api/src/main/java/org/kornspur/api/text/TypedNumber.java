package org.kornspur.api.text;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.function.Predicate;
import org.kornspur.ingest.file.DecimalMark;

/**
 * A number as somebody typed it on a page. It has the decimal mark of the page's language, or the
 * other one where nobody can take that for parted thousands.
 */
public sealed interface TypedNumber {

  /** It can be read in one way. */
  record Plain(BigDecimal value) implements TypedNumber {}

  /** It is no number. */
  record NoNumber() implements TypedNumber {}

  /**
   * It can be read in two ways, as 1.250 on a German page.
   *
   * @param grouped how to write it if its thousands are parted: 1250
   * @param decimal how to write it if it has decimals: 1,250
   */
  record Ambiguous(String grouped, String decimal) implements TypedNumber {}

  /** Reads a number that may have decimals. */
  static TypedNumber of(String text, Language language) {
    return read(text, language, mark -> mark != language.decimalMark());
  }

  /** Reads a whole number, in which either mark can part thousands. */
  static TypedNumber whole(String text, Language language) {
    return read(text, language, mark -> true);
  }

  private static TypedNumber read(
      String text, Language language, Predicate<DecimalMark> canPartThousands) {
    if (!text.matches("-?\\d{1,12}(?:[.,]\\d{1,17})?")) {
      return new NoNumber();
    }
    boolean isAmbiguous =
        Arrays.stream(DecimalMark.values())
            .filter(canPartThousands)
            .anyMatch(mark -> mark.isAmbiguous(text));
    return isAmbiguous
        ? new Ambiguous(
            text.replaceAll("[.,]", ""),
            text.replaceAll("[.,]", String.valueOf(language.decimalMark().sign())))
        : new Plain(new BigDecimal(text.replace(',', '.')));
  }
}
