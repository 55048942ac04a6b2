package org.kornspur.api.http;

import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;

/** Says when to ask again. */
@Provider
public final class NotReadyMapper implements ExceptionMapper<NotReady> {

  @Override
  public Response toResponse(NotReady notReady) {
    return ProblemAnswer.of(ProblemDocument.of(ProblemKind.NOT_READY, notReady.detail()))
        .header(HttpHeaders.RETRY_AFTER, notReady.retryAfterSeconds())
        .build();
  }
}
