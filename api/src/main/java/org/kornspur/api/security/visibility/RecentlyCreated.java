package org.kornspur.api.security.visibility;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.kornspur.ingest.contract.Subject;

/**
 * Whose the crops and lots are that facts made a moment ago and that have no standing yet. Bounded:
 * the oldest are forgotten, by then they have one.
 */
final class RecentlyCreated {
  private static final int MOST = 50_000;

  private final Predicate<Subject> isJudged;
  private final Map<Subject, String> holders = new LinkedHashMap<>();

  /**
   * @param isJudged whether a subject has a standing, which says whose it is; then nothing counts
   *     that is kept here
   */
  RecentlyCreated(Predicate<Subject> isJudged) {
    this.isJudged = isJudged;
  }

  /**
   * Takes a subject for an enterprise, unless another took it before.
   *
   * @return whether it is that enterprise's now
   */
  synchronized boolean take(Subject subject, String enterpriseId) {
    String earlier = holders.putIfAbsent(subject, enterpriseId);
    if (holders.size() > MOST) {
      holders.remove(holders.keySet().iterator().next());
    }
    return earlier == null || earlier.equals(enterpriseId);
  }

  synchronized Optional<String> holderOf(Subject subject) {
    return Optional.ofNullable(holders.get(subject)).filter(holder -> !isJudged.test(subject));
  }
}
