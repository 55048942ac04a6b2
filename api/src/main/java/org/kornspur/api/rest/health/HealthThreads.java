package org.kornspur.api.rest.health;

import io.netty.util.concurrent.DefaultThreadFactory;
import io.smallrye.health.AsyncHealthCheckFactory;
import io.smallrye.mutiny.Uni;
import jakarta.annotation.PreDestroy;
import jakarta.annotation.Priority;
import jakarta.enterprise.inject.Alternative;
import jakarta.inject.Singleton;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;

/**
 * Runs the health checks on threads of their own, so that they answer while all workers are busy.
 */
@Alternative
@Priority(1)
@Singleton
public class HealthThreads extends AsyncHealthCheckFactory {
  private final ExecutorService threads =
      Executors.newFixedThreadPool(2, new DefaultThreadFactory("health", true));

  @Override
  public Uni<HealthCheckResponse> callSync(HealthCheck check) {
    return super.callSync(check).runSubscriptionOn(threads);
  }

  @PreDestroy
  void stop() {
    threads.shutdownNow();
  }
}
