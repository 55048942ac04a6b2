package org.kornspur.ingest.intake;

import org.kornspur.ingest.problem.CountProblem;

/** A count of part of what was looked at cannot exceed the whole. */
final class CountsWithin {

  private CountsWithin() {}

  /**
   * Checks a part against its whole; a count that was not made is null and breaks nothing.
   *
   * @param wholeName the field that holds the whole, for the message
   */
  static void check(String part, Integer count, String wholeName, Integer whole, Problems into) {
    if (count != null && whole != null && count > whole) {
      into.add(part, count, new CountProblem.PartAboveWhole(wholeName, whole));
    }
  }
}
