package org.kornspur.api.readmodel;

import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.stream.Stream;

/**
 * Starts what reads topics once the processors have its broker, and stops it before the processors.
 */
@ApplicationScoped
class FollowerLifecycle {
  private static final int AFTER_THE_ENGINE = 5_000;

  /** A reader that outlives the broker asks it again and again, and logs each time. */
  private static final int BEFORE_THE_ENGINE = 1_000;

  @Inject Instance<ReadsTopics> readers;

  void start(@Observes @Priority(AFTER_THE_ENGINE) StartupEvent started) {
    followers().forEach(TopicFollower::start);
  }

  void stop(@Observes @Priority(BEFORE_THE_ENGINE) ShutdownEvent stopping) {
    // each may wait half a second for an answer of the broker, all of them at the same time
    followers().forEach(TopicFollower::beginClose);
    followers().forEach(TopicFollower::close);
    readers.forEach(ReadsTopics::stopped);
  }

  private Stream<TopicFollower> followers() {
    return readers.stream().flatMap(reader -> reader.followers().stream());
  }
}
