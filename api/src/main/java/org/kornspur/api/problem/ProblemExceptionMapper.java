package org.kornspur.api.problem;

import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;

/** Answers with the document that an exception carries. */
@Provider
public final class ProblemExceptionMapper implements ExceptionMapper<ProblemException> {

  @Override
  public Response toResponse(ProblemException problem) {
    return problem.answer().build();
  }
}
