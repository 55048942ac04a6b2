package org.kornspur.api.text;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.Map;
import java.util.Properties;
import org.kornspur.ingest.intake.ProblemWords;
import org.kornspur.ingest.text.TextBundle;

/**
 * The patterns of one language, as read from the properties files and the same for every reader:
 * statements, units and terms, and what bundled sources say. {@link ReaderWords} writes with them.
 */
final class StatementTexts {
  private static final Map<Language, StatementTexts> ALL = new EnumMap<>(Language.class);

  static {
    for (Language language : Language.values()) {
      ALL.put(language, new StatementTexts(language));
    }
  }

  private final TextBundle statements;
  private final TextBundle texts;
  private final Properties citations = new Properties();

  private StatementTexts(Language language) {
    statements = TextBundle.read(language.locale(), StatementTexts.class, "text/statements");
    // a finding can say what is wrong with a fact that an earlier release took in
    texts = statements.and(TextBundle.read(language.locale(), ProblemWords.class, "text/problems"));
    if (language != Language.ENGLISH) {
      read("/text/citations_" + language.tag() + ".properties");
      read("/text/contract_" + language.tag() + ".properties");
    }
  }

  static StatementTexts in(Language language) {
    return ALL.get(language);
  }

  private void read(String resource) {
    try (Reader reader =
        new InputStreamReader(
            StatementTexts.class.getResourceAsStream(resource), StandardCharsets.UTF_8)) {
      citations.load(reader);
    } catch (IOException unreadable) {
      throw new UncheckedIOException("Cannot read " + resource, unreadable);
    }
  }

  /** What a bundled rulebook, table or the contract says; what a site says stays as it is. */
  String citation(String text) {
    return citations.getProperty(text, text);
  }

  /** The texts of statements alone. */
  TextBundle statements() {
    return statements;
  }

  /** Those, and what problems say. */
  TextBundle texts() {
    return texts;
  }

  /** A unit of the contract and the rulebooks, in the number that an amount asks for. */
  String unit(double amount, String unit) {
    String key = "unit." + unit.replace(' ', '-');
    return texts.has(key) ? texts.written(key, Map.of("amount", amount)) : unit;
  }
}
