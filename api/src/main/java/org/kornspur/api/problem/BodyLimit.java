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

/** Bounds the bodies of requests: refused by their declared length, or while they are read. */
@ApplicationScoped
public class BodyLimit {

  /** Most bytes of a body. */
  public static final int MOST_BYTES = 10_000_000;

  private static final int BEFORE_ALL_OTHERS = 1000;

  private final ObjectMapper json;

  @Inject
  public BodyLimit(ObjectMapper json) {
    this.json = json;
  }

  void register(@Observes Filters filters) {
    filters.register(this::refuseByDeclaredLength, BEFORE_ALL_OTHERS);
  }

  /**
   * Reads a body whose length was not declared.
   *
   * @throws ApiProblem if it is longer than the limit
   * @throws IOException if the sender goes away
   */
  public static byte[] read(InputStream body) throws IOException {
    return read(body, MOST_BYTES, "Divide it and send it in parts");
  }

  /**
   * Reads a body of which no more than this can be of use.
   *
   * @param remedy what the caller can do
   * @throws ApiProblem if it is longer than the limit
   * @throws IOException if the sender goes away
   */
  public static byte[] read(InputStream body, int mostBytes, String remedy) throws IOException {
    byte[] bytes = body.readNBytes(mostBytes + 1);
    if (bytes.length > mostBytes) {
      throw new ApiProblem(tooLarge("more than " + mostBytes, mostBytes, remedy));
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
        context, tooLarge(declared, MOST_BYTES, "Divide it and send it in parts"), json);
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
   * @param remedy what the caller can do
   */
  public static ProblemDocument tooLarge(String bytes, int mostBytes, String remedy) {
    Problem problem =
        new Problem(
            "",
            Problem.described(bytes + " bytes"),
            "at most " + mostBytes + " bytes a request",
            remedy);
    return ProblemDocument.of(ProblemKind.BODY_TOO_LARGE, List.of(problem));
  }
}
