package org.kornspur.api.resource;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.Readiness;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.feed.Feeds;

/** Ready once every question can be answered and the lists are complete. */
@Readiness
@ApplicationScoped
public class EngineAndListsReady implements HealthCheck {
  private final Engine engine;
  private final Feeds feeds;

  @Inject
  public EngineAndListsReady(Engine engine, Feeds feeds) {
    this.engine = engine;
    this.feeds = feeds;
  }

  @Override
  public HealthCheckResponse call() {
    return HealthCheckResponse.named("engine and lists")
        .withData("engine", engine.condition())
        .withData("listsComplete", feeds.areCaughtUp())
        .withData("standingsWaiting", feeds.standingsWaiting())
        .status(engine.isReady() && feeds.areCaughtUp())
        .build();
  }
}
