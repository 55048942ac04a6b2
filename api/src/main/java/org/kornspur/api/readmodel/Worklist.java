package org.kornspur.api.readmodel;

import java.util.List;
import org.kornspur.ingest.contract.Subject;

/**
 * What waits for somebody, as of one moment: the first of each kind, and how many there are.
 *
 * @param causes what crops and lots are not fit for, most seed at customers first
 * @param allCauses how many there are
 * @param owed crops and lots that owe evidence, soonest first; the last may hold more pieces than
 *     were asked for
 * @param allOwed pieces of evidence that are owed in all
 * @param suspended releases that facts took back
 * @param proposed lots that wait for a second signature
 * @param dispatchedUnreleased lots of which seed left for customers, and which are not released
 */
public record Worklist(
    List<Cause> causes,
    int allCauses,
    List<Owed> owed,
    long allOwed,
    ResultPage<Release> suspended,
    ResultPage<Release> proposed,
    ResultPage<Release> dispatchedUnreleased) {

  /**
   * Something for which crops and lots are not fit, and how far it reaches.
   *
   * @param origins the crops and lots that do not meet a gate for it; others inherit that
   * @param origin the first of them
   * @param standing of the first of them
   * @param lots lots that are not fit for it
   * @param released of these, lots for which somebody signed a release, suspended ones among them
   * @param leftKg seed of these lots in store, kilograms
   * @param customersKg seed of these lots at customers, kilograms
   */
  public record Cause(
      CauseKey key,
      List<Subject> origins,
      StandingIndexRow origin,
      CompressedRecord standing,
      int lots,
      int released,
      double leftKg,
      double customersKg) {}

  /** What a crop or lot owes by one day; its standing says what it is. */
  public record Owed(EvidenceDeadline until, CompressedRecord standing) {}

  /** A lot that is at some step of release; its standing says since when and why. */
  public record Release(StandingIndexRow lot, CompressedRecord standing) {}
}
