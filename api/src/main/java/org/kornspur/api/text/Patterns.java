package org.kornspur.api.text;

import com.ibm.icu.text.ListFormatter;
import com.ibm.icu.text.MessageFormat;
import com.ibm.icu.text.MessagePattern;
import com.ibm.icu.util.ULocale;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * The patterns of one language, in the message format of ICU: plurals, choices and numbers follow
 * the Unicode CLDR.
 */
final class Patterns {
  private static final Map<Language, Patterns> ALL = new EnumMap<>(Language.class);

  static {
    for (Language language : Language.values()) {
      ALL.put(language, new Patterns(language));
    }
  }

  private final ULocale locale;
  private final Properties texts;
  private final Properties citations;
  private final Properties problems;
  private final Map<String, MessageFormat> formats = new ConcurrentHashMap<>();
  private final Map<String, Set<String>> arguments = new ConcurrentHashMap<>();

  private Patterns(Language language) {
    locale = ULocale.forLocale(language.locale());
    texts = read("/text/statements_" + language.tag() + ".properties");
    // a finding can say what is wrong with a fact that an earlier release took in
    problems = read("/text/problems_" + language.tag() + ".properties");
    citations = new Properties();
    if (language != Language.ENGLISH) {
      citations.putAll(read("/text/citations_" + language.tag() + ".properties"));
      citations.putAll(read("/text/contract_" + language.tag() + ".properties"));
    }
  }

  /** What a bundled rulebook, table or the contract says; what a site says stays as it is. */
  String citation(String text) {
    return citations.getProperty(text, text);
  }

  static Patterns in(Language language) {
    return ALL.get(language);
  }

  private static Properties read(String resource) {
    Properties texts = new Properties();
    try (Reader reader =
        new InputStreamReader(
            Patterns.class.getResourceAsStream(resource), StandardCharsets.UTF_8)) {
      texts.load(reader);
    } catch (IOException unreadable) {
      throw new UncheckedIOException("Cannot read " + resource, unreadable);
    }
    return texts;
  }

  Set<String> keys() {
    return texts.stringPropertyNames();
  }

  boolean has(String key) {
    return texts.containsKey(key);
  }

  /** A pattern as it stands written. */
  String raw(String key) {
    return texts.getProperty(key);
  }

  /** The names of the arguments that a pattern speaks of, those of its branches too. */
  Set<String> argumentsOf(String key) {
    return arguments.computeIfAbsent(
        key,
        wanted -> {
          MessagePattern pattern = new MessagePattern(texts.getProperty(wanted, ""));
          return IntStream.range(0, pattern.countParts())
              .mapToObj(pattern::getPart)
              .filter(part -> part.getType() == MessagePattern.Part.Type.ARG_NAME)
              .map(pattern::getSubstring)
              .collect(Collectors.toUnmodifiableSet());
        });
  }

  /**
   * The text of a key.
   *
   * @throws IllegalArgumentException where there is no such key
   */
  String text(String key, Map<String, ?> arguments) {
    // a format is not safe for several threads
    return ((MessageFormat) format(key).clone()).format(arguments);
  }

  String text(String key) {
    return text(key, Map.of());
  }

  /** A constant of an enumeration; by its name where there is no word for it. */
  String term(String type, String name) {
    String key = "term." + type + "." + name;
    return has(key) ? text(key) : name;
  }

  /** A unit of the contract and the rulebooks, in the number that an amount asks for. */
  String unit(double amount, String unit) {
    String key = "unit." + unit.replace(' ', '-');
    return has(key) ? text(key, Map.of("amount", amount)) : unit;
  }

  /** As in {@code A, B and C}. */
  String listed(Collection<String> items) {
    return ListFormatter.getInstance(locale).format(items);
  }

  /** Whole statements one after the other. */
  String inRow(List<String> clauses) {
    return String.join("; ", clauses);
  }

  private MessageFormat format(String key) {
    return formats.computeIfAbsent(
        key,
        wanted -> {
          String pattern = texts.getProperty(wanted, problems.getProperty(wanted));
          if (pattern == null) {
            throw new IllegalArgumentException("No text for " + wanted + " in " + locale);
          }
          return new MessageFormat(pattern, locale);
        });
  }
}
