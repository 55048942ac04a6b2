package org.kornspur.ingest.intake;

import org.kornspur.ingest.problem.TextProblem;
import org.kornspur.ingest.problem.VisibleText;

/**
 * What any text in a fact must be: not blank, not endless, and nothing in it that does not show.
 */
final class TextRule {

  /** Longest text of a fact, in UTF-16 units. */
  static final int LONGEST = 2000;

  private TextRule() {}

  static void check(String text, String path, Problems into) {
    if (text.isBlank()) {
      into.add(path, text, new TextProblem.Blank());
      return;
    }
    if (text.length() > LONGEST) {
      into.add(path, text, new TextProblem.TooLong(LONGEST));
    }
    if (text.codePoints().anyMatch(VisibleText::isInvisible)) {
      into.add(path, text, new TextProblem.NotOneLine());
    }
  }
}
