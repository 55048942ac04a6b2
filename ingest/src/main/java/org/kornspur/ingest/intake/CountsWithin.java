package org.kornspur.ingest.intake;

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
      into.add(
          part,
          count,
          "at most " + wholeName + " (" + whole + ")",
          "Check which of the two counts is wrong; the part is counted within the whole");
    }
  }
}
