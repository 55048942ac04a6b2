package org.kornspur.api.http;

import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.ext.Provider;

/** Has a request for a heavy document wait for its turn, once it is known that it may be asked. */
@Provider
@HeavyDocument
@Priority(UnknownParameterFilter.AFTER_THE_CALLER_IS_LET_IN + 100)
public class HeavyDocumentFilter implements ContainerRequestFilter {
  @Inject HeavyDocumentTurn turn;

  @Override
  public void filter(ContainerRequestContext request) {
    turn.take();
  }
}
