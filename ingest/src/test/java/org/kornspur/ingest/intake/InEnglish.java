package org.kornspur.ingest.intake;

import java.time.ZoneOffset;
import java.util.Locale;

/** Problems as the command line writes them. */
public final class InEnglish {
  private static final ProblemWords WORDS = ProblemWords.in(Locale.UK, ZoneOffset.UTC);

  private InEnglish() {}

  public static String value(Problem problem) {
    return WORDS.value(problem);
  }

  static String sentence(Problem problem) {
    return WORDS.sentence(problem);
  }
}
