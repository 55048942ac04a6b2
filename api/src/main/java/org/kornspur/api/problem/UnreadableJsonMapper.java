package org.kornspur.api.problem;

import com.fasterxml.jackson.core.JsonProcessingException;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;
import org.kornspur.ingest.json.FactParser;

/** Names line and column of text that is no JSON. */
@Provider
public final class UnreadableJsonMapper implements ExceptionMapper<JsonProcessingException> {

  @Override
  public Response toResponse(JsonProcessingException fault) {
    return ProblemAnswer.of(
            ProblemDocument.of(ProblemKind.UNREADABLE_BODY, FactParser.notJson(fault).problems()))
        .build();
  }
}
