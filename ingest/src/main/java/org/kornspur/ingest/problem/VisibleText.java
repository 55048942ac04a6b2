package org.kornspur.ingest.problem;

/**
 * A text, or its beginning, with every character that does not show itself (controls, direction
 * marks, halves of pairs) written as its code.
 */
public record VisibleText(String text, boolean isWhole) {

  /**
   * The visible form.
   *
   * @param asciiOnly whether all that is not ASCII is written as its code too
   */
  public static VisibleText of(CharSequence text, boolean asciiOnly, int mostCharacters) {
    StringBuilder visible = new StringBuilder();
    int index = 0;
    while (index < text.length() && index < mostCharacters) {
      int character = Character.codePointAt(text, index);
      if (isInvisible(character) || (asciiOnly && character > 126)) {
        visible.append(String.format("\\u%04X", character));
      } else {
        visible.appendCodePoint(character);
      }
      index += Character.charCount(character);
    }
    return new VisibleText(visible.toString(), index >= text.length());
  }

  /** Whether a character does not show itself, or is none: it can make a text look like another. */
  public static boolean isInvisible(int character) {
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
