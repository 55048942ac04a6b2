package org.kornspur.processors.stream;

import java.util.Iterator;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import org.apache.kafka.common.serialization.Serializer;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;

/** Rows that were read from a database, as the reader of dossiers wants them. */
final class RowsAsStore<V> implements ReadOnlyKeyValueStore<String, V> {
  private final NavigableMap<String, V> rows = new TreeMap<>();

  void put(String key, V value) {
    rows.put(key, value);
  }

  @Override
  public V get(String key) {
    return rows.get(key);
  }

  @Override
  public KeyValueIterator<String, V> range(String from, String to) {
    return over(rows.subMap(from, true, to, true));
  }

  @Override
  public KeyValueIterator<String, V> all() {
    return over(rows);
  }

  @Override
  public <S extends Serializer<P>, P> KeyValueIterator<String, V> prefixScan(P prefix, S ignored) {
    return over(rows.subMap(prefix.toString(), true, prefix.toString() + '\uffff', true));
  }

  @Override
  public long approximateNumEntries() {
    return rows.size();
  }

  private static <V> KeyValueIterator<String, V> over(NavigableMap<String, V> found) {
    Iterator<Map.Entry<String, V>> entries = found.entrySet().iterator();
    return new KeyValueIterator<>() {
      @Override
      public boolean hasNext() {
        return entries.hasNext();
      }

      @Override
      public KeyValue<String, V> next() {
        Map.Entry<String, V> entry = entries.next();
        return KeyValue.pair(entry.getKey(), entry.getValue());
      }

      @Override
      public String peekNextKey() {
        throw new UnsupportedOperationException();
      }

      @Override
      public void close() {}
    };
  }
}
