package org.kornspur.api.resource;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.Liveness;
import org.kornspur.api.feed.Feeds;

/** Alive while the lists are being kept; if not, only a restart helps. */
@Liveness
@ApplicationScoped
public class FeedsAlive implements HealthCheck {
  private final Feeds feeds;

  @Inject
  public FeedsAlive(Feeds feeds) {
    this.feeds = feeds;
  }

  @Override
  public HealthCheckResponse call() {
    return HealthCheckResponse.named("lists are kept").status(feeds.areAlive()).build();
  }
}
