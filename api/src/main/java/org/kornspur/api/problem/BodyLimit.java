package org.kornspur.api.problem;

import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Statement;

/** Bounds the bodies of requests: by their declared length, or while they are read. */
public final class BodyLimit {

  public static final int MOST_BYTES = 10_000_000;

  private BodyLimit() {}

  /**
   * Reads a body whose length was not declared.
   *
   * @throws ApiProblem if it is longer than the limit
   * @throws IOException if the sender goes away
   */
  public static byte[] read(InputStream body) throws IOException {
    return read(body, new BodyProblem.TooLarge(MOST_BYTES));
  }

  /**
   * Reads a body of which no more than this can be of use.
   *
   * @param limit and why a longer one is refused
   * @throws ApiProblem if it is longer than the limit
   * @throws IOException if the sender goes away
   */
  public static byte[] read(InputStream body, BodyProblem.Limit limit) throws IOException {
    byte[] bytes = body.readNBytes(limit.most() + 1);
    if (bytes.length > limit.most()) {
      throw new ApiProblem(tooLarge(new RequestGiven.MoreBytes(limit.most()), limit));
    }
    return bytes;
  }

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
