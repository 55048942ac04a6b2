package org.kornspur.api.security;

import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import java.util.OptionalLong;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;

/**
 * Why somebody does not come in.
 *
 * @param retryAfterSeconds when to try again; empty where that would not help
 */
public record Refusal(ProblemDocument document, OptionalLong retryAfterSeconds) {

  public static Refusal of(ProblemKind kind, AccessDetail detail) {
    return new Refusal(ProblemDocument.of(kind, detail), OptionalLong.empty());
  }

  /** What an issued password opens: nothing but the address where another is set. */
  public static Refusal ofIssuedPassword() {
    return of(ProblemKind.OWN_PASSWORD_NEEDED, new AccessDetail.IssuedPassword());
  }

  public static Refusal tooMany(AccessDetail detail, long seconds) {
    return new Refusal(
        ProblemDocument.of(ProblemKind.TOO_MANY_REQUESTS, detail), OptionalLong.of(seconds));
  }

  /** An answer with the document and when to try again. */
  public Response.ResponseBuilder answer() {
    Response.ResponseBuilder answer =
        ProblemAnswer.of(document).header(HttpHeaders.CACHE_CONTROL, "no-store");
    retryAfterSeconds.ifPresent(seconds -> answer.header(HttpHeaders.RETRY_AFTER, seconds));
    return answer;
  }
}
