package org.kornspur.api.problem;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Statement;

/** Bounds the bodies of requests: refused by their declared length, or while they are read. */
@ApplicationScoped
public class BodyLimit {

  /** Most bytes of a body. */
  public static final int MOST_BYTES = 10_000_000;

  private static final int AFTER_HEAD_LIMIT = 70;

  @Inject ObjectMapper json;

  void register(@Observes Filters filters) {
    filters.register(this::refuseByDeclaredLength, AFTER_HEAD_LIMIT);
  }

  /**
   * Reads a body whose length was not declared.
   *
   * @throws ApiProblem if it is longer than the limit
   * @throws IOException if the sender goes away
   */
  public static byte[] read(InputStream body) throws IOException {
    return read(body, MOST_BYTES, new BodyProblem.TooLarge(MOST_BYTES));
  }

  /**
   * Reads a body of which no more than this can be of use.
   *
   * @param reason why a longer one is refused
   * @throws ApiProblem if it is longer than the limit
   * @throws IOException if the sender goes away
   */
  public static byte[] read(InputStream body, int mostBytes, BodyProblem reason)
      throws IOException {
    byte[] bytes = body.readNBytes(mostBytes + 1);
    if (bytes.length > mostBytes) {
      throw new ApiProblem(tooLarge(new RequestGiven.MoreBytes(mostBytes), reason));
    }
    return bytes;
  }

  private void refuseByDeclaredLength(RoutingContext context) {
    String declared = context.request().getHeader(HttpHeaders.CONTENT_LENGTH);
    if (declared == null || !isOver(declared, MOST_BYTES)) {
      context.next();
      return;
    }
    ProblemAnswer.end(
        context,
        tooLarge(new Given.Bytes(Long.parseLong(declared)), new BodyProblem.TooLarge(MOST_BYTES)),
        json);
  }

  /** Whether a declared length is over a limit. */
  public static boolean isOver(String declaredBytes, int mostBytes) {
    try {
      return Long.parseLong(declaredBytes) > mostBytes;
    } catch (NumberFormatException e) {
      return false;
    }
  }

  /**
   * Says that a body is too long.
   *
   * @param bytes how long it is, as far as that is known
   */
  public static ProblemDocument tooLarge(Statement bytes, BodyProblem reason) {
    return ProblemDocument.of(ProblemKind.BODY_TOO_LARGE, List.of(Problem.of("", bytes, reason)));
  }
}
