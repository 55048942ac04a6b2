package org.kornspur.api.security;

/** What a person is here. One person may have several roles. */
public enum Role {
  /** Grows seed under contract: sees and records its own crops and lots. */
  MULTIPLIER,
  /** Walks the crops and counts. */
  INSPECTOR,
  /** Tests the samples that are assigned to its laboratory. */
  LABORATORY,
  /** Answers for all lots, and signs. */
  QUALITY,
  /** Reads all, changes nothing. */
  AUDITOR,
  /** Keeps people and rulebooks, and the machine; sees no lot. */
  ADMINISTRATOR,
  /** A program that watches this one: reads metrics, and nothing else. */
  MONITOR
}
