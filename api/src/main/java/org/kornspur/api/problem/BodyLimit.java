package org.kornspur.api.problem;

import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Statement;

/**
 * The limits of the bodies of requests; {@code RequestBodies} holds them while it receives one, so
 * that no resource sees a longer one.
 */
public final class BodyLimit {

  public static final int MOST_BYTES = 10_000_000;

  private BodyLimit() {}

  /** What speaks against a body of the length that the request declares; empty where nothing. */
  public static Optional<ProblemDocument> ofDeclared(
      HttpServerRequest request, BodyProblem.Limit limit) {
    String declared = request.getHeader(HttpHeaders.CONTENT_LENGTH);
    try {
      long bytes = declared == null ? 0 : Long.parseLong(declared);
      return bytes > limit.most()
          ? Optional.of(tooLarge(new Given.Bytes(bytes), limit))
          : Optional.empty();
    } catch (NumberFormatException noLength) {
      return Optional.empty();
    }
  }

  /**
   * Says that a body is too long.
   *
   * @param bytes how long it is, as far as that is known
   */
  public static ProblemDocument tooLarge(Statement bytes, BodyProblem.Limit limit) {
    return ProblemDocument.of(ProblemKind.BODY_TOO_LARGE, List.of(Problem.of("", bytes, limit)));
  }
}
