package org.kornspur.processors.stream;

/**
 * That one fact supersedes another, and why.
 *
 * @throws IllegalArgumentException for what no fact says
 */
record Revocation(String supersededFactId, String byFactId, String reason) implements IntakeRecord {
  /** Some times what a reason and the names beside it come to. */
  private static final int LONGEST_REASON = 10_000;

  Revocation {
    Keys.part(supersededFactId);
    Keys.part(byFactId);
    if (reason.length() > LONGEST_REASON) {
      throw new IllegalArgumentException(
          "A reason of %s characters; no fact has more than %s"
              .formatted(reason.length(), LONGEST_REASON));
    }
  }
}
