package org.kornspur.processors.verdict;

/**
 * What the verdicts of a crop or lot come to: the one state of a standing, from the gates to the
 * answer. Records on topics have its names; release stays a person's act.
 */
public enum Fitness {
  /** All that is asked for is met. */
  FIT,
  /** Something is not met, here or in an ancestor. */
  NOT_FIT,
  /** Nothing is known against it, and evidence is still owed. */
  EVIDENCE_OWED
}
