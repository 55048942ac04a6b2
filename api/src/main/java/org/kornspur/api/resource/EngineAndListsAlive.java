package org.kornspur.api.resource;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.Liveness;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.feed.Feeds;

/** Alive unless the engine failed for good or the lists are no longer kept: then restart. */
@Liveness
@ApplicationScoped
public class EngineAndListsAlive implements HealthCheck {
  private final Engine engine;
  private final Feeds feeds;

  @Inject
  public EngineAndListsAlive(Engine engine, Feeds feeds) {
    this.engine = engine;
    this.feeds = feeds;
  }

  @Override
  public HealthCheckResponse call() {
    return HealthCheckResponse.named("engine and lists live")
        .withData("engine", engine.condition())
        .status(!engine.hasFailed() && feeds.areAlive())
        .build();
  }
}
