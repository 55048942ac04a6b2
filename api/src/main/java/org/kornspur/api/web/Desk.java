package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * What needs quality now, worst first.
 *
 * @param suspended releases that facts took back
 * @param moreSuspended releases beyond those
 * @param causes why lots are not fit, by what it began with; most seed at customers first
 * @param moreCauses causes beyond those
 * @param owed evidence owed, what is due first
 * @param moreOwed pieces of evidence beyond those
 * @param secondSignatures lots that wait for a second person
 * @param moreSecondSignatures lots beyond those
 * @param quarantined refused inputs that wait
 * @param latest the newest of them
 */
public record Desk(
    List<Suspended> suspended,
    int moreSuspended,
    List<Cause> causes,
    int moreCauses,
    List<Owed> owed,
    long moreOwed,
    List<Suspended> secondSignatures,
    int moreSecondSignatures,
    int quarantined,
    List<QuarantinePage.Line> latest) {

  /** Whether nothing waits. */
  public boolean isClear() {
    return suspended.isEmpty()
        && causes.isEmpty()
        && owed.isEmpty()
        && secondSignatures.isEmpty()
        && quarantined == 0;
  }

  /**
   * A lot whose release changed by itself or is half done.
   *
   * @param why as HTML; empty where nothing is recorded
   */
  public record Suspended(
      String id, String href, Optional<Instant> since, Optional<RawString> why) {}

  /**
   * Something that is wrong with a lot or crop, and how far it reaches.
   *
   * @param gates that are not met, in the words of the trade
   * @param first the first of them in one line of HTML
   * @param lots lots that are not fit for it, itself among them
   * @param leftKg seed of these in store
   * @param customersKg seed of these at customers
   */
  public record Cause(
      String name,
      String href,
      String gates,
      Optional<RawString> first,
      Instant changedAt,
      int lots,
      double leftKg,
      double customersKg) {}

  /**
   * A piece of evidence that is owed.
   *
   * @param dueText last day on which it can be had, with how many days are left, in words
   * @param urgent whether the day is near or past
   */
  public record Owed(
      String name, String href, String gate, RawString bring, String dueText, boolean urgent) {}
}
