package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.standing.StandingState;

/**
 * What needs quality now, worst first.
 *
 * @param counts how much there is of each
 * @param suspended releases that facts took back
 * @param moreSuspended releases beyond those
 * @param causes why lots are not fit; most seed at customers first
 * @param moreCauses causes beyond those
 * @param owed evidence owed, what is due first
 * @param moreOwed pieces of evidence beyond theirs
 * @param secondSignatures lots that wait for a second person
 * @param moreSecondSignatures lots beyond those
 * @param dispatched lots of which seed left for customers, and which are not released
 * @param moreDispatched lots beyond those
 * @param latest the newest of the refused inputs that wait
 */
public record DeskPageView(
    Counts counts,
    List<Suspended> suspended,
    int moreSuspended,
    List<CauseCard> causes,
    int moreCauses,
    List<Owed> owed,
    long moreOwed,
    List<Suspended> secondSignatures,
    int moreSecondSignatures,
    List<Dispatched> dispatched,
    int moreDispatched,
    List<QuarantinePage.Line> latest) {

  /** Whether nothing waits. */
  public boolean isClear() {
    return suspended.isEmpty()
        && causes.isEmpty()
        && owed.isEmpty()
        && secondSignatures.isEmpty()
        && dispatched.isEmpty()
        && counts.toRelease() == 0
        && counts.refused() == 0;
  }

  /**
   * How much waits.
   *
   * @param toRelease fit lots in store that are not released
   * @param owed pieces of evidence
   * @param refused inputs in quarantine
   * @param dispatched lots of which seed left for customers, and which are not released
   */
  public record Counts(int toRelease, long owed, int refused, int dispatched) {}

  /**
   * A lot whose release changed by itself or is half done.
   *
   * @param why as HTML; empty where nothing is recorded
   */
  public record Suspended(
      String id, String href, Optional<Instant> since, Optional<RawString> why) {}

  /** A lot of which seed left for customers before it was released. */
  public record Dispatched(String id, String href, StandingState state, double massKg) {}

  /**
   * What a crop or lot owes by one day.
   *
   * @param dueText last day on which it can be had, with how many days are left, in words
   * @param urgent whether the day is near or past
   * @param refusedHref where refused input that names it is shown; empty where there is none
   */
  public record Owed(
      String name,
      String href,
      String dueText,
      boolean urgent,
      List<Piece> pieces,
      String refusedHref) {}

  /** A piece of evidence that is owed. */
  public record Piece(String gate, RawString bring) {}
}
