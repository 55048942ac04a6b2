package org.kornspur.ingest.intake;

/**
 * What any text in a fact must be: not blank, not endless, and nothing in it that does not show.
 */
final class TextRule {

  /** Longest text of a fact, in UTF-16 units. */
  static final int LONGEST = 2000;

  private TextRule() {}

  static void check(String text, String path, Problems into) {
    if (text.isBlank()) {
      into.add(
          path, text, "text that is not blank", "Fill it in; leave an optional field out instead");
      return;
    }
    if (text.length() > LONGEST) {
      into.add(
          path,
          text,
          "at most " + LONGEST + " characters",
          "Shorten it, and name the document that holds the rest");
    }
    if (text.codePoints().anyMatch(TextRule::isInvisible)) {
      into.add(
          path,
          text,
          "text on one line without control characters or marks that turn its direction",
          "Remove the characters that are written as codes here");
    }
  }

  /** Whether a character does not show itself, or is none: it can make a text look like another. */
  static boolean isInvisible(int character) {
    return switch (Character.getType(character)) {
      case Character.CONTROL,
          Character.FORMAT,
          Character.SURROGATE,
          Character.UNASSIGNED,
          Character.PRIVATE_USE,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR ->
          true;
      default -> false;
    };
  }
}
