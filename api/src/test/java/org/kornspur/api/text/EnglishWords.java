package org.kornspur.api.text;

import java.time.LocalDate;
import java.time.ZoneOffset;

/** English words of one who sees everything, on a day in spring. */
public final class EnglishWords {
  private EnglishWords() {}

  public static ReaderWords words() {
    return words(Language.ENGLISH, LocalDate.of(2026, 4, 1));
  }

  public static FirstReasonWords firstReasons() {
    return new FirstReasonWords(new VerdictWords(words()));
  }

  static ReaderWords words(Language language, LocalDate today) {
    return new ReaderWords(Audience.ofEverything(new LocalFormat(language, ZoneOffset.UTC), today));
  }
}
