package org.kornspur.api.rest.health;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.List;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.HealthCheckResponseBuilder;
import org.eclipse.microprofile.health.Readiness;
import org.kornspur.api.kafka.Engine;
import org.kornspur.api.readmodel.ReadsTopics;
import org.kornspur.api.readmodel.TopicFollower;

/**
 * Ready once every question can be answered and all lists are complete. Of each list that is not,
 * it says why and since when.
 */
@Readiness
@ApplicationScoped
public class EngineAndListsReady implements HealthCheck {
  @Inject Engine engine;
  @Inject Instance<ReadsTopics> readers;

  @Override
  public HealthCheckResponse call() {
    List<TopicFollower> behind =
        readers.stream()
            .flatMap(reader -> reader.followers().stream())
            .filter(feed -> !feed.isCaughtUp())
            .toList();
    HealthCheckResponseBuilder answer =
        HealthCheckResponse.named("engine and lists")
            .withData("engine", engine.condition())
            .withData("listsComplete", behind.isEmpty());
    behind.forEach(feed -> answer.withData("feed " + feed.name(), reason(feed)));
    return answer.status(engine.isReady() && behind.isEmpty()).build();
  }

  private static String reason(TopicFollower feed) {
    return feed.failure()
        .map(
            failure ->
                "failed at "
                    + failure.since()
                    + " ("
                    + failure.cause().getClass().getSimpleName()
                    + "; see the log); it starts again by itself")
        .orElse("reads " + feed.topic() + " from its beginning");
  }
}
