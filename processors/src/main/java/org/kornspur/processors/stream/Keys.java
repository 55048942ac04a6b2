package org.kornspur.processors.stream;

import java.util.Arrays;
import java.util.List;
import org.kornspur.ingest.contract.Subject;

/**
 * Composed keys. The parts are joined by a bar, which no id may contain, so that all keys of one
 * subject lie together and can be read by prefix.
 */
public final class Keys {
  private static final String BAR = "|";

  private Keys() {}

  /** Joins parts to a key. */
  public static String of(Object... parts) {
    return String.join(BAR, Arrays.stream(parts).map(Object::toString).toList());
  }

  /** Prefix of all keys that begin with these parts and have more. */
  public static String prefix(Object... parts) {
    return of(parts) + BAR;
  }

  /** Parts of a key. */
  public static List<String> parts(String key) {
    return List.of(key.split("\\|", -1));
  }

  /** The key under which an edge is found by its child. */
  public static String edgeUp(Subject child, Subject parent, String factId) {
    return of("up", child, parent, factId);
  }

  /** The key under which an edge is found by its parent. */
  public static String edgeDown(Subject parent, Subject child, String factId) {
    return of("down", parent, child, factId);
  }
}
