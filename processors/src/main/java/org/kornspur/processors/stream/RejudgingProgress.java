package org.kornspur.processors.stream;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.apache.kafka.streams.processor.TaskId;

/**
 * How far this instance is with judging dossiers again after a change of the rules. Safe for
 * several threads.
 */
public final class RejudgingProgress {
  private static final String SETTING = "kornspur.rejudging-progress";

  private final Map<TaskId, AtomicLong> toLookAt = new ConcurrentHashMap<>();
  private final AtomicLong judged = new AtomicLong();

  /** Settings of a streams client that make its tasks tell of their progress here. */
  public Map<String, Object> settings() {
    return Map.of(SETTING, this);
  }

  static RejudgingProgress of(Map<String, ?> settings) {
    return settings.get(SETTING) instanceof RejudgingProgress shared
        ? shared
        : new RejudgingProgress();
  }

  /** Dossiers that are still to be looked at; at most so many are still to be judged again. */
  public long toLookAt() {
    return toLookAt.values().stream().mapToLong(AtomicLong::get).sum();
  }

  /** Dossiers that were judged again for a change of the rules since the start. */
  public long judged() {
    return judged.get();
  }

  OfTask ofTask(TaskId task) {
    return new OfTask(task);
  }

  final class OfTask {
    private final TaskId task;

    private OfTask(TaskId task) {
      this.task = task;
    }

    void found() {
      left().incrementAndGet();
    }

    /** What came in since the counting is looked at too, and was not counted. */
    void lookedAt() {
      left().updateAndGet(left -> Math.max(0, left - 1));
    }

    void judged() {
      judged.incrementAndGet();
    }

    void clear() {
      toLookAt.remove(task);
    }

    private AtomicLong left() {
      return toLookAt.computeIfAbsent(task, none -> new AtomicLong());
    }
  }
}
