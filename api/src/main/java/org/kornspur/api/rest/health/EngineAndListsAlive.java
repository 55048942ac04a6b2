package org.kornspur.api.rest.health;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.Liveness;
import org.kornspur.api.kafka.Engine;
import org.kornspur.api.readmodel.ReadsTopics;
import org.kornspur.api.readmodel.TopicFollower;

/** Alive unless the engine failed for good or the lists are no longer kept: then restart. */
@Liveness
@ApplicationScoped
public class EngineAndListsAlive implements HealthCheck {
  @Inject Engine engine;
  @Inject Instance<ReadsTopics> readers;

  @Override
  public HealthCheckResponse call() {
    boolean listsAreKept =
        readers.stream()
            .flatMap(reader -> reader.followers().stream())
            .allMatch(TopicFollower::isAlive);
    return HealthCheckResponse.named("engine and lists live")
        .withData("engine", engine.condition())
        .status(!engine.hasFailed() && listsAreKept)
        .build();
  }
}
