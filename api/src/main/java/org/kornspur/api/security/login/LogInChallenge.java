package org.kornspur.api.security.login;

import io.quarkus.vertx.http.runtime.security.ChallengeData;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.AccessSettings;

/** How somebody is asked to say who they are (RFC 9110, section 11.6.1). */
@ApplicationScoped
public class LogInChallenge {
  private static final int SEE_OTHER = 303;

  @Inject AccessSettings settings;

  ChallengeData of(HttpServerRequest request) {
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

  String scheme(HttpServerRequest request) {
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
