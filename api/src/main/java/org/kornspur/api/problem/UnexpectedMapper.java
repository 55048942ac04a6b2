package org.kornspur.api.problem;

import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;
import java.util.UUID;
import org.jboss.logging.Logger;

/** Logs an unexpected exception under an incident id and gives the caller that id alone. */
@Provider
public final class UnexpectedMapper implements ExceptionMapper<Throwable> {
  private static final Logger LOG = Logger.getLogger(UnexpectedMapper.class);

  @Override
  public Response toResponse(Throwable unexpected) {
    return answer(unexpected);
  }

  static Response answer(Throwable unexpected) {
    String incident = UUID.randomUUID().toString();
    LOG.errorf(unexpected, "Incident %s", incident);
    return ProblemAnswer.of(
            ProblemDocument.of(ProblemKind.UNEXPECTED, new AddressDetail.Unexpected(incident))
                .withIncident(incident))
        .build();
  }
}
