package org.kornspur.processors.stream;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;

/** How far all tasks of this instance are with what is marked; one task may wait for another. */
final class JudgingProgress {
  /** So long a parent is waited for at most while there is other work. */
  static final Duration LONGEST_WAIT = Duration.ofSeconds(30);

  /**
   * So long while some task is behind, with the parent maybe. Whoever is judged before its parents
   * is judged again with each of them, and so are its children: a load that took longer than the
   * wait had four times as much to judge.
   */
  static final Duration LONGEST_WAIT_IN_A_LOAD = Duration.ofHours(1);

  /** What waits for nobody is judged sooner where no task is behind. */
  static final Duration BEHIND = Duration.ofSeconds(2);

  private final AtomicLong judgings = new AtomicLong();
  private volatile long behindMs = Long.MIN_VALUE;

  void judged() {
    judgings.incrementAndGet();
  }

  /** What was judged since the start. */
  long judgings() {
    return judgings.get();
  }

  /**
   * Notes how far a task is.
   *
   * @param readyMs since when that which it judges next waits for nobody
   */
  void note(long readyMs, long nowMs) {
    if (nowMs - readyMs > BEHIND.toMillis()) {
      behindMs = nowMs;
    }
  }

  /** How long a parent is waited for at most, as things are now. */
  Duration longestWait(long nowMs) {
    return behindMs > nowMs - LONGEST_WAIT.toMillis() ? LONGEST_WAIT_IN_A_LOAD : LONGEST_WAIT;
  }
}
