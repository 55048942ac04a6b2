package org.kornspur.api.command.notification;

import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.ext.Provider;
import org.jboss.logging.Logger;
import org.kornspur.api.security.CurrentCaller;

/** Keeps the roles of who chose notifications in step with the tokens of their issuer. */
@Provider
@Priority(Priorities.USER)
public class IssuedRolesFilter implements ContainerRequestFilter {
  private static final Logger LOG = Logger.getLogger(IssuedRolesFilter.class);

  @Inject CurrentCaller caller;
  @Inject NotificationChoices choices;

  /** No request fails for it: the next one brings the same. */
  @Override
  public void filter(ContainerRequestContext request) {
    caller
        .ifKnown()
        .ifPresent(
            one -> {
              try {
                choices.note(one);
              } catch (RuntimeException notKept) {
                LOG.debugf(notKept, "The roles of %s could not be kept", one.personId());
              }
            });
  }
}
