package org.kornspur.api.security;

import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;

/** Answers with the refusal that ended a request. */
@Provider
public final class RefusedMapper implements ExceptionMapper<Refused> {

  @Override
  public Response toResponse(Refused refused) {
    return refused.refusal().answer().build();
  }
}
