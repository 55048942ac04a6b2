package org.kornspur.api.rest.health;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.Readiness;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.PeopleUnreadable;

/** Not ready while the people file is broken, for nobody can log in then. */
@Readiness
@ApplicationScoped
public class PeopleReadable implements HealthCheck {
  @Inject People people;

  @Override
  public HealthCheckResponse call() {
    boolean isReadable = true;
    try {
      people.requireReadable();
    } catch (PeopleUnreadable broken) {
      isReadable = false;
    }
    return HealthCheckResponse.named("people file").status(isReadable).build();
  }
}
