package org.kornspur.api.security.login;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.Refused;

/** Answers requests that were refused before a resource saw them, in the event loop. */
@ApplicationScoped
public class RefusalAnswers {
  private static final int BEFORE_ALL_OTHERS = Integer.MIN_VALUE;

  @Inject LogInChallenge challenge;
  @Inject ObjectMapper json;

  void register(@Observes Router router) {
    router.route().order(BEFORE_ALL_OTHERS).failureHandler(this::answer);
  }

  private void answer(RoutingContext context) {
    if (context.failure() instanceof Refused refused) {
      send(context, refused.refusal());
    } else {
      context.next();
    }
  }

  void send(RoutingContext context, Refusal refusal) {
    // who is refused is not logged in: the connection gets no longer rest than that of nobody
    context.setUser(null);
    refusal
        .retryAfterSeconds()
        .ifPresent(
            seconds ->
                context.response().putHeader(HttpHeaders.RETRY_AFTER, Long.toString(seconds)));
    if (refusal.document().status() == ProblemKind.NOT_LOGGED_IN.status()) {
      context.response().putHeader("WWW-Authenticate", challenge.scheme(context.request()));
    }
    context.response().putHeader(HttpHeaders.CACHE_CONTROL, "no-store");
    ProblemAnswer.end(context, refusal.document(), json);
  }
}
