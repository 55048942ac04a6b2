package org.kornspur.ingest.text;

import com.ibm.icu.text.MessageFormat;
import com.ibm.icu.text.MessagePattern;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;

/**
 * A pattern, read.
 *
 * @param arguments names of all arguments, those within branches too
 * @param selecting names of the arguments that choose a branch by their text
 */
record Pattern(MessageFormat format, Set<String> arguments, Set<String> selecting) {

  /** What an argument is that the statement does not have, so that a branch can be chosen by it. */
  private static final String ABSENT = "absent";

  static Pattern of(String key, String text, Locale locale) {
    MessagePattern read;
    try {
      read = new MessagePattern(text);
    } catch (RuntimeException malformed) {
      throw new IllegalArgumentException("No pattern under " + key + ": " + text, malformed);
    }
    Set<String> arguments = new HashSet<>();
    Set<String> selecting = new HashSet<>();
    for (int index = 0; index < read.countParts(); index++) {
      MessagePattern.Part part = read.getPart(index);
      if (part.getType() == MessagePattern.Part.Type.ARG_START) {
        String name = read.getSubstring(read.getPart(index + 1));
        arguments.add(name);
        if (part.getArgType() == MessagePattern.ArgType.SELECT) {
          selecting.add(name);
        }
      }
    }
    return new Pattern(
        new MessageFormat(text, locale), Set.copyOf(arguments), Set.copyOf(selecting));
  }

  /**
   * The text with its arguments.
   *
   * @param argument of a name, and whether it chooses a branch; null where there is none
   */
  String written(BiFunction<String, Boolean, Object> argument) {
    Map<String, Object> values = new HashMap<>();
    for (String name : arguments) {
      Object value = argument.apply(name, selecting.contains(name));
      values.put(name, value == null ? ABSENT : value);
    }
    // a format is for one thread at a time
    return ((MessageFormat) format.clone()).format(values);
  }
}
