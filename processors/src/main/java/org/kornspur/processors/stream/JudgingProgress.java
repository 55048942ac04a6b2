package org.kornspur.processors.stream;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;

/** How far all tasks of this instance are with what is marked; one task may wait for another. */
final class JudgingProgress {
  /** So long a parent is waited for at most while there is other work. */
  static final Duration LONGEST_WAIT = Duration.ofSeconds(30);

  /**
   * So long while some task has a backlog, in which the parent may be. Whoever is judged before its
   * parents is judged again with each of them, and so are its children: a load that took longer
   * than the wait had four times as much to judge.
   */
  static final Duration LONGEST_WAIT_IN_A_LOAD = Duration.ofHours(1);

  private final AtomicLong judgings = new AtomicLong();
  private volatile long backlogMs = Long.MIN_VALUE;

  void judged() {
    judgings.incrementAndGet();
  }

  /** What was judged since the start. */
  long judgings() {
    return judgings.get();
  }

  /** Notes that some task has more to judge now than a few steps can. */
  void backlogAt(long nowMs) {
    backlogMs = nowMs;
  }

  /** How long a parent is waited for at most, as things are now. */
  Duration longestWait(long nowMs) {
    boolean isBacklog = backlogMs > nowMs - LONGEST_WAIT.toMillis();
    return isBacklog ? LONGEST_WAIT_IN_A_LOAD : LONGEST_WAIT;
  }
}
