package org.kornspur.api.http;

import jakarta.annotation.PreDestroy;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.ext.Provider;

/** Has a request for a heavy document wait for its turn, once it is known that it may be asked. */
@Provider
@HeavyDocument
@Priority(UnknownParameterFilter.AFTER_THE_CALLER_IS_LET_IN + 100)
public class HeavyDocumentFilter implements ContainerRequestFilter {
  @Inject Turn turn;

  @Override
  public void filter(ContainerRequestContext request) {
    turn.take();
  }

  /**
   * The turn of one request. It ends with the request, when its answer is written or has failed,
   * and not when the caller goes away: the work goes on until then.
   */
  @RequestScoped
  static class Turn {
    @Inject HeavyDocuments documents;
    private boolean taken;

    void take() {
      documents.begin();
      taken = true;
    }

    @PreDestroy
    void giveBack() {
      if (taken) {
        documents.end();
      }
    }
  }
}
