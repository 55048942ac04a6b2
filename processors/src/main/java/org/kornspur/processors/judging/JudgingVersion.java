package org.kornspur.processors.judging;

/**
 * Version of the program parts that judge: gates, statistics, ground, inheritance, release. It is
 * part of the fingerprint of the rules, so a new number has every dossier of a running site judged
 * again.
 *
 * <p>{@code JudgingVersionTest} fails when a value, limit or state that the demo comes to has
 * changed while this number has not. Raise it too for a change that the demo does not show.
 */
public final class JudgingVersion {
  /** The present version. */
  public static final int CURRENT = 9;

  private JudgingVersion() {}
}
