package org.kornspur.api.problem;

import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;

/** Answers with the document that a problem carries. */
@Provider
public final class ApiProblemMapper implements ExceptionMapper<ApiProblem> {

  @Override
  public Response toResponse(ApiProblem problem) {
    return ProblemAnswer.of(problem.document()).build();
  }
}
