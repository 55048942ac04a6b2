package org.kornspur.ingest.text;

import com.ibm.icu.text.MessageFormat;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.Set;

/**
 * The patterns of one language by their keys.
 *
 * <p>Source: ICU message syntax, as {@link MessageFormat} documents it. Arguments have names.
 */
public final class TextBundle {
  private final Locale locale;
  private final Map<String, TextPattern> patterns;

  private TextBundle(Locale locale, Map<String, TextPattern> patterns) {
    this.locale = locale;
    this.patterns = Map.copyOf(patterns);
  }

  /**
   * The patterns of a file in UTF-8, such as {@code text/problems_de.properties}.
   *
   * @param beside a class of the module that has the file
   * @param name of the file, without language and ending
   * @throws IllegalArgumentException if a key stands twice or a pattern cannot be read
   */
  public static TextBundle read(Locale locale, Class<?> beside, String name) {
    String file = "/" + name + "_" + locale.getLanguage() + ".properties";
    Properties properties = new OnceOnly();
    try (InputStream source = beside.getResourceAsStream(file)) {
      properties.load(new InputStreamReader(source, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Map<String, String> patterns = new HashMap<>();
    properties.stringPropertyNames().forEach(key -> patterns.put(key, properties.getProperty(key)));
    return of(locale, patterns);
  }

  /** These patterns. */
  public static TextBundle of(Locale locale, Map<String, String> byKey) {
    Map<String, TextPattern> patterns = new HashMap<>();
    byKey.forEach((key, text) -> patterns.put(key, TextPattern.of(key, text, locale)));
    return new TextBundle(locale, patterns);
  }

  /**
   * These and other patterns of the same language.
   *
   * @throws IllegalArgumentException if both have a key
   */
  public TextBundle and(TextBundle other) {
    Map<String, TextPattern> all = new HashMap<>(patterns);
    other.patterns.forEach(
        (key, pattern) -> {
          if (all.put(key, pattern) != null) {
            throw new IllegalArgumentException("Two texts have the key " + key);
          }
        });
    return new TextBundle(locale, all);
  }

  /** Locale by which numbers and plurals are written. */
  public Locale locale() {
    return locale;
  }

  public Set<String> keys() {
    return patterns.keySet();
  }

  /** The names of the arguments that a pattern uses; empty for an unknown key. */
  public Set<String> arguments(String key) {
    return find(key).map(TextPattern::arguments).orElse(Set.of());
  }

  /** A pattern as it stands written. */
  public Optional<String> raw(String key) {
    return find(key).map(TextPattern::text);
  }

  public boolean has(String key) {
    return patterns.containsKey(key);
  }

  /**
   * The text of a key, for which no statement stands.
   *
   * @throws IllegalArgumentException where there is no such key
   */
  public String written(String key, Map<String, ?> arguments) {
    return find(key)
        .orElseThrow(() -> new IllegalArgumentException("No text for " + key + " in " + locale))
        .written(arguments::get);
  }

  /** A constant of an enumeration; by its name where there is no word for it. */
  public String term(String type, String name) {
    String key = "term." + type + "." + name;
    return has(key) ? written(key, Map.of()) : name;
  }

  Optional<TextPattern> find(String key) {
    return Optional.ofNullable(patterns.get(key));
  }

  /** A key that stands twice would lose the first of its texts without a word. */
  private static final class OnceOnly extends Properties {
    @Override
    public synchronized Object put(Object key, Object value) {
      if (containsKey(key)) {
        throw new IllegalArgumentException("The key " + key + " stands twice");
      }
      return super.put(key, value);
    }
  }
}
