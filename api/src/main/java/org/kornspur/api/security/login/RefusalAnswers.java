package org.kornspur.api.security.login;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.security.ChallengeData;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Refusal;

/** Answers requests that were refused before a resource saw them, in the event loop. */
@ApplicationScoped
public class RefusalAnswers {
  private static final int BEFORE_ALL_OTHERS = Integer.MIN_VALUE;
  private static final int SEE_OTHER = 303;

  @Inject AccessSettings settings;
  @Inject ObjectMapper json;

  void register(@Observes Router router) {
    router.route().order(BEFORE_ALL_OTHERS).failureHandler(this::answer);
  }

  private void answer(RoutingContext context) {
    if (context.failure() instanceof Refusal refusal) {
      send(context, refusal);
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
      context.response().putHeader("WWW-Authenticate", scheme(context.request()));
    }
    context.response().putHeader(HttpHeaders.CACHE_CONTROL, "no-store");
    ProblemAnswer.end(context, refusal.document(), json);
  }

  /** How somebody is asked to say who they are (RFC 9110, section 11.6.1). */
  ChallengeData challenge(HttpServerRequest request) {
    return leadsToLogIn(request)
        ? new ChallengeData(
            SEE_OTHER,
            HttpHeaders.LOCATION,
            RoutePolicy.LOG_IN
                + "?next="
                + URLEncoder.encode(target(request), StandardCharsets.UTF_8))
        : new ChallengeData(
            ProblemKind.NOT_LOGGED_IN.status(), "WWW-Authenticate", scheme(request));
  }

  /** Whether a person opens a page in a browser, and can log in here. */
  boolean leadsToLogIn(HttpServerRequest request) {
    String accept = request.getHeader(HttpHeaders.ACCEPT);
    return settings.access() == AccessSettings.Means.PEOPLE
        && request.method().name().equals("GET")
        && accept != null
        && accept.contains("text/html");
  }

  private static String target(HttpServerRequest request) {
    return request.query() == null ? request.path() : request.path() + "?" + request.query();
  }

  private String scheme(HttpServerRequest request) {
    return switch (settings.access()) {
      case PEOPLE ->
          isBrowser(request)
              ? "Session realm=\"Kornspur\""
              : "Basic realm=\"Kornspur\", charset=\"UTF-8\"";
      case OIDC -> "Bearer realm=\"Kornspur\"";
    };
  }

  /**
   * Whether a page's script or the person before a browser asks. For Basic a browser would ask for
   * a password in a window of its own, and would answer the script only when that is closed.
   */
  private static boolean isBrowser(HttpServerRequest request) {
    String agent = request.getHeader(HttpHeaders.USER_AGENT);
    return agent != null && agent.regionMatches(true, 0, "Mozilla/", 0, "Mozilla/".length());
  }
}
