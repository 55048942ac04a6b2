package org.kornspur.processors.stream;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;

/**
 * The subjects that the stores of a task hold something of, one by one in the order of their keys.
 * From each to the next it takes one seek a store, however much is held of it.
 */
final class SubjectsInStores {
  /** The character after the bar that ends the subject in a key. */
  private static final char AFTER_BAR = '|' + 1;

  private static final Comparator<String> BY_KEY = Comparator.comparing(Keys::prefix);

  private final List<ReadOnlyKeyValueStore<String, byte[]>> stores;

  @SafeVarargs
  SubjectsInStores(ReadOnlyKeyValueStore<String, byte[]>... stores) {
    this.stores = List.of(stores);
  }

  /** The first subject, as it stands in keys. */
  Optional<String> first() {
    return from(null);
  }

  /** The subject after this one. */
  Optional<String> after(String subject) {
    return from(subject + AFTER_BAR);
  }

  private Optional<String> from(String key) {
    return stores.stream().flatMap(store -> first(store, key)).min(BY_KEY);
  }

  private static Stream<String> first(ReadOnlyKeyValueStore<String, byte[]> store, String key) {
    try (KeyValueIterator<String, byte[]> rest = store.range(key, null)) {
      return rest.hasNext() ? Stream.of(Keys.parts(rest.peekNextKey()).get(0)) : Stream.empty();
    }
  }
}
