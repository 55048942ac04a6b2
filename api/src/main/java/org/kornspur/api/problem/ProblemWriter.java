package org.kornspur.api.problem;

import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.ext.Provider;

/** Writes what was refused in the language of the caller; a page has done so itself before. */
@Provider
@Priority(Priorities.USER)
public class ProblemWriter implements ContainerResponseFilter {
  @Inject ProblemLanguage language;

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    if (response.getEntity() instanceof ProblemDocument document) {
      response.setEntity(ProblemJson.of(document, language.words()));
    }
  }
}
