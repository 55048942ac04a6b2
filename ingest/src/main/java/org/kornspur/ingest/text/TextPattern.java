package org.kornspur.ingest.text;

import com.ibm.icu.text.MessageFormat;
import com.ibm.icu.text.MessagePattern;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * A pattern, read.
 *
 * @param text as it stands written
 * @param arguments names of all arguments, those within branches too
 */
record TextPattern(String text, MessageFormat format, Set<String> arguments) {

  /** What an argument is that the statement does not have, so that a branch can be chosen by it. */
  private static final String ABSENT = "absent";

  static TextPattern of(String key, String text, Locale locale) {
    MessagePattern read;
    try {
      read = new MessagePattern(text);
    } catch (RuntimeException malformed) {
      throw new IllegalArgumentException("No pattern under " + key + ": " + text, malformed);
    }
    Set<String> arguments =
        IntStream.range(0, read.countParts())
            .mapToObj(read::getPart)
            .filter(
                part ->
                    part.getType() == MessagePattern.Part.Type.ARG_NAME
                        || part.getType() == MessagePattern.Part.Type.ARG_NUMBER)
            .map(read::getSubstring)
            .collect(Collectors.toUnmodifiableSet());
    return new TextPattern(text, new MessageFormat(text, locale), arguments);
  }

  /**
   * The text with its arguments.
   *
   * @param argument of a name; null where there is none
   */
  String written(Function<String, Object> argument) {
    Map<String, Object> values = new HashMap<>();
    for (String name : arguments) {
      Object value = argument.apply(name);
      values.put(name, value == null ? ABSENT : value);
    }
    // a format is for one thread at a time
    return ((MessageFormat) format.clone()).format(values);
  }
}
