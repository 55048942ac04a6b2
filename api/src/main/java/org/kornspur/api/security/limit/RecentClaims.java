package org.kornspur.api.security.limit;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * What was taken by whom or for what a moment ago, and what the processors may not tell of yet.
 * Bounded: the oldest are forgotten, by then the processors do.
 */
public final class RecentClaims<K> {
  private final int most;
  private final Map<K, String> claims = new LinkedHashMap<>();

  public RecentClaims(int most) {
    this.most = most;
  }

  /**
   * Takes a key, unless it was taken before.
   *
   * @return the claim by which it was taken before; empty where it was free
   */
  public synchronized Optional<String> take(K key, String claim) {
    String earlier = claims.putIfAbsent(key, claim);
    if (claims.size() > most) {
      claims.remove(claims.keySet().iterator().next());
    }
    return Optional.ofNullable(earlier);
  }

  /** The claim by which a key is taken. */
  public synchronized Optional<String> of(K key) {
    return Optional.ofNullable(claims.get(key));
  }

  /** Gives a key free again. */
  public synchronized void release(K key) {
    claims.remove(key);
  }
}
