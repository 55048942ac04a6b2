package org.kornspur.api.text;

import java.beans.Introspector;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.kornspur.ingest.text.TextBundle;

/**
 * The texts of some pages or papers in one language, from {@code text/NAME_LANGUAGE.properties}.
 *
 * <p>Arguments have numbers ({@code {0}}) and come as the reader reads them: numbers and days are
 * written already.
 */
public final class PageTexts {
  private static final Map<String, PageTexts> READ = new ConcurrentHashMap<>();

  private final TextBundle texts;

  private PageTexts(TextBundle texts) {
    this.texts = texts;
  }

  /**
   * The texts of this name.
   *
   * @param name such as {@code lot}
   */
  public static PageTexts in(Language language, String name) {
    return READ.computeIfAbsent(
        name + "_" + language.tag(),
        file -> new PageTexts(TextBundle.read(language.locale(), PageTexts.class, "text/" + name)));
  }

  /**
   * The text of a key with its arguments. What differs by a constant stands under the key and its
   * name, as in {@code step.RELEASED}.
   *
   * @throws IllegalArgumentException if there is no such key, or it has more arguments
   */
  public String of(String key, Object... arguments) {
    if (arguments.length == 1 && !texts.has(key)) {
      return texts.written(key + "." + arguments[0], Map.of());
    }
    if (texts.arguments(key).size() > arguments.length) {
      throw new IllegalArgumentException(
          key + " has the arguments " + texts.arguments(key) + "; given: " + arguments.length);
    }
    return texts.written(
        key,
        IntStream.range(0, arguments.length)
            .boxed()
            .collect(Collectors.toMap(String::valueOf, at -> String.valueOf(arguments[at]))));
  }

  public boolean has(String key) {
    return texts.has(key);
  }

  /**
   * All texts whose keys begin with this prefix, by the rest of the key. Their arguments have names
   * and stay open, as in {@code {time}}, for a script to fill in.
   */
  public Map<String, String> openTexts(String prefix) {
    return texts.keys().stream()
        .filter(key -> key.startsWith(prefix))
        .collect(
            Collectors.toMap(
                key -> Introspector.decapitalize(key.substring(prefix.length())), this::open));
  }

  private String open(String key) {
    return texts.written(
        key,
        texts.arguments(key).stream()
            .collect(Collectors.toMap(Function.identity(), name -> "{" + name + "}")));
  }
}
