package org.kornspur.api.export.identity;

import java.util.regex.Pattern;

/**
 * A Global Trade Item Number in its form of fourteen digits, its check digit verified.
 *
 * <p>Source: GS1 General Specifications, section 7.9.1, "Standard check digit calculations".
 */
public record Gtin(String digits) {

  private static final Pattern FORM = Pattern.compile("\\d{8}|\\d{12}|\\d{13}|\\d{14}");
  private static final int LENGTH = 14;

  /**
   * @param digits 8, 12, 13 or 14 digits, the last of them the check digit
   * @throws IllegalArgumentException if they are no GTIN, with what is wrong
   */
  public Gtin {
    if (!FORM.matcher(digits).matches()) {
      throw new IllegalArgumentException(
          "'" + digits + "' is no GTIN: 8, 12, 13 or 14 digits are expected");
    }
    int stated = digits.charAt(digits.length() - 1) - '0';
    int computed = checkDigit(digits.substring(0, digits.length() - 1));
    if (stated != computed) {
      throw new IllegalArgumentException(
          "'%s' is no GTIN: its check digit is %d and should be %d"
              .formatted(digits, stated, computed));
    }
    digits = "0".repeat(LENGTH - digits.length()) + digits;
  }

  /**
   * The check digit of a GS1 key: from the right, digits count three times and once by turns, and
   * the check digit fills the sum up to a multiple of ten.
   *
   * @param body the key without its check digit
   */
  public static int checkDigit(String body) {
    int sum = 0;
    for (int fromRight = 0; fromRight < body.length(); fromRight++) {
      int digit = body.charAt(body.length() - 1 - fromRight) - '0';
      sum += fromRight % 2 == 0 ? 3 * digit : digit;
    }
    return (10 - sum % 10) % 10;
  }

  /**
   * Whether the number was given out under a company prefix; the indicator digit is passed over.
   */
  public boolean isUnder(String companyPrefix) {
    return digits.startsWith(companyPrefix, 1);
  }
}
