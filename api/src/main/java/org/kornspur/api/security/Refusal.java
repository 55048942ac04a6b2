package org.kornspur.api.security;

import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import java.util.OptionalLong;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemException;
import org.kornspur.api.problem.ProblemKind;

/** Ends a request because of the caller, and says why they do not come in. */
public class Refusal extends ProblemException {
  protected Refusal(ProblemKind kind, AccessDetail detail, OptionalLong retryAfterSeconds) {
    super("A request is refused", ProblemDocument.of(kind, detail), retryAfterSeconds);
  }

  public static Refusal of(ProblemKind kind, AccessDetail detail) {
    return new Refusal(kind, detail, OptionalLong.empty());
  }

  public static Refusal notLoggedIn(AccessDetail detail) {
    return of(ProblemKind.NOT_LOGGED_IN, detail);
  }

  /** What an issued password opens: nothing but the address where another is set. */
  public static Refusal ofIssuedPassword() {
    return of(ProblemKind.OWN_PASSWORD_NEEDED, new AccessDetail.IssuedPassword());
  }

  public static Refusal tooMany(AccessDetail detail, long seconds) {
    return new Refusal(ProblemKind.TOO_MANY_REQUESTS, detail, OptionalLong.of(seconds));
  }

  public static Refusal notReady(AccessDetail detail, long seconds) {
    return new Refusal(ProblemKind.NOT_READY, detail, OptionalLong.of(seconds));
  }

  @Override
  public Response.ResponseBuilder answer() {
    return super.answer().header(HttpHeaders.CACHE_CONTROL, "no-store");
  }
}
