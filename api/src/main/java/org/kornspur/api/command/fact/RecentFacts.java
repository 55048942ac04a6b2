package org.kornspur.api.command.fact;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Fingerprints of the facts that this instance sent a moment ago and that the register of the
 * processors may not hold yet. Bounded: the oldest are forgotten, by then the register has them.
 */
final class RecentFacts {
  private final int most;
  private final Map<String, String> fingerprints = new LinkedHashMap<>();

  RecentFacts(int most) {
    this.most = most;
  }

  /**
   * Takes a fact id, so that no other request can take it for other content.
   *
   * @return the fingerprint under which the id was taken before; empty where it was free
   */
  synchronized Optional<String> take(String factId, String fingerprint) {
    String earlier = fingerprints.putIfAbsent(factId, fingerprint);
    if (fingerprints.size() > most) {
      fingerprints.remove(fingerprints.keySet().iterator().next());
    }
    return Optional.ofNullable(earlier);
  }

  /** The fingerprint under which an id is taken. */
  synchronized Optional<String> fingerprint(String factId) {
    return Optional.ofNullable(fingerprints.get(factId));
  }

  /** Gives an id free again, because the fact was not sent. */
  synchronized void release(String factId) {
    fingerprints.remove(factId);
  }
}
