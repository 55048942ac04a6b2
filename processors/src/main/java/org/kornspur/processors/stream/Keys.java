package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;

/**
 * Composed keys. The parts are joined by a bar, which no id may contain, so that all keys of one
 * subject lie together and can be read by prefix.
 */
public final class Keys {
  static final String BAR = "|";
  private static final int LONGEST_PART = 150;

  private Keys() {}

  /** Joins parts to a key. */
  public static String of(Object... parts) {
    return String.join(BAR, Arrays.stream(parts).map(Object::toString).toList());
  }

  /**
   * Part of a composed key that came from a topic.
   *
   * @throws IllegalArgumentException if it would be no part but several, or longer than any id
   */
  static String part(String id) {
    if (id.isEmpty() || id.length() > LONGEST_PART || id.contains(BAR)) {
      throw new IllegalArgumentException(
          "No id: %s. Expected 1 to %s characters, no bar"
              .formatted(Problem.shown(id), LONGEST_PART));
    }
    return id;
  }

  /**
   * The subject that a record's key names.
   *
   * @throws IllegalArgumentException if it is not exactly the text form of one
   */
  static Subject subject(String recordKey) {
    Subject subject = Subject.parse(part(recordKey));
    if (!subject.toString().equals(recordKey)) {
      throw new IllegalArgumentException(
          "The key " + Problem.shown(recordKey) + " is not written as " + subject);
    }
    return subject;
  }

  /** Prefix of all keys that begin with these parts and have more. */
  public static String prefix(Object... parts) {
    return of(parts) + BAR;
  }

  /** Every entry of a store whose key begins with a prefix, in the order of the keys. */
  static <V> List<KeyValue<String, V>> scan(ReadOnlyKeyValueStore<String, V> store, String prefix) {
    List<KeyValue<String, V>> entries = new ArrayList<>();
    try (KeyValueIterator<String, V> held = store.prefixScan(prefix, new StringSerializer())) {
      held.forEachRemaining(entries::add);
    }
    return entries;
  }

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
