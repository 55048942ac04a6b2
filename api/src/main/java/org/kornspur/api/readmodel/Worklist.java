package org.kornspur.api.readmodel;

import java.util.List;

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
 */
public record Worklist(
    List<Cause> causes,
    int allCauses,
    List<Owed> owed,
    long allOwed,
    ResultPage<Release> suspended,
    ResultPage<Release> proposed) {

  /**
   * Something that is wrong with a crop or lot, and how far it reaches.
   *
   * @param origin what it is wrong with
   * @param standing of the origin
   * @param lots lots that are not fit for it, itself among them
   * @param leftKg seed of these in store, kilograms
   * @param customersKg seed of these at customers, kilograms
   */
  public record Cause(
      StandingRow origin, CompressedRecord standing, int lots, double leftKg, double customersKg) {}

  /** What a crop or lot owes by one day; its standing says what it is. */
  public record Owed(EvidenceDeadline until, CompressedRecord standing) {}

  /** A lot that is at some step of release; its standing says since when and why. */
  public record Release(StandingRow lot, CompressedRecord standing) {}
}
