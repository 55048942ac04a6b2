package org.kornspur.api.security.limit;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A map with a bounded number of entries: the least recently used one is dropped. Not safe for
 * several threads.
 */
@SuppressWarnings("serial") // never written out
public final class LruMap<V> extends LinkedHashMap<String, V> {
  private final int most;

  public LruMap(int most) {
    super(16, 0.75f, true);
    this.most = most;
  }

  @Override
  protected boolean removeEldestEntry(Map.Entry<String, V> eldest) {
    return size() > most;
  }
}
