package org.kornspur.api.security.limit;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A map of so many entries at most: beyond that, the one that was not used for the longest time is
 * forgotten. Not safe for several threads.
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
