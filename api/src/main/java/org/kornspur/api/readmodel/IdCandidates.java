package org.kornspur.api.readmodel;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Words in refused input that may be ids, whatever its form. By them the page of a lot finds
 * refused input about that lot.
 */
final class IdCandidates {
  private static final int MOST_BYTES = 4_096;
  private static final int MOST_WORDS = 200;
  private static final int SHORTEST = 3;
  private static final Pattern BETWEEN = Pattern.compile("[^\\p{L}\\p{N}_./-]+");

  private IdCandidates() {}

  /** The first words, of at least three characters each. */
  static Set<String> in(ByteBuffer original) {
    byte[] bytes = new byte[Math.min(original.remaining(), MOST_BYTES)];
    original.duplicate().get(bytes);
    return BETWEEN
        .splitAsStream(new String(bytes, StandardCharsets.UTF_8))
        .filter(word -> word.length() >= SHORTEST)
        .limit(MOST_WORDS)
        .collect(Collectors.toUnmodifiableSet());
  }
}
