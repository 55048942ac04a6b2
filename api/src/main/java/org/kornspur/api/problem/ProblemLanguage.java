package org.kornspur.api.problem;

import jakarta.enterprise.context.RequestScoped;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import java.math.MathContext;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.kornspur.api.text.Language;
import org.kornspur.ingest.intake.ProblemWords;
import org.kornspur.ingest.text.PlainFormat;
import org.kornspur.ingest.text.TextBundle;

/** The words of all problems, of the intake and of requests, in the language of the caller. */
@RequestScoped
public class ProblemLanguage {
  static final String FILE = "text/requests";

  private static final Map<Language, ProblemWords> WORDS =
      Arrays.stream(Language.values())
          .collect(Collectors.toUnmodifiableMap(Function.identity(), ProblemLanguage::read));

  private final HttpHeaders headers;

  public ProblemLanguage(@Context HttpHeaders headers) {
    this.headers = headers;
  }

  public ProblemWords words() {
    return words(Language.of(headers));
  }

  public static ProblemWords words(Language language) {
    return WORDS.get(language);
  }

  private static ProblemWords read(Language language) {
    TextBundle texts =
        ProblemWords.texts(language.locale())
            .and(TextBundle.read(language.locale(), ProblemLanguage.class, FILE));
    return new ProblemWords(
        texts, new PlainFormat(texts, ZoneId.systemDefault(), MathContext.UNLIMITED));
  }
}
