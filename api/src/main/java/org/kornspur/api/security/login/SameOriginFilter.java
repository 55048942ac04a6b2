package org.kornspur.api.security.login;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.quarkus.vertx.http.runtime.security.SecurityHandlerPriorities;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.net.URI;
import java.util.Optional;
import java.util.Set;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Refusal;

/**
 * Refuses changes that a page of another site sends with what the browser keeps for this one. A
 * browser adds what the reader's cookie or password proves to requests of foreign pages too; it
 * also says where they come from.
 *
 * <p>Sources: W3C Fetch Metadata Request Headers, {@code Sec-Fetch-Site}; RFC 6454, {@code Origin}.
 */
@ApplicationScoped
public class SameOriginFilter {
  private static final Logger LOG = Logger.getLogger(SameOriginFilter.class);
  private static final Set<String> SAFE = Set.of("GET", "HEAD", "OPTIONS", "TRACE");
  private static final int AFTER_THROTTLE = SecurityHandlerPriorities.AUTHENTICATION - 20;

  void register(@Observes Filters filters) {
    filters.register(SameOriginFilter::check, AFTER_THROTTLE);
  }

  private static void check(RoutingContext context) {
    Optional<Caller> caller = CallerIdentity.caller(context);
    if (caller.isPresent() && isForged(context.request(), caller.get().proof())) {
      LOG.warnf(
          "A page of another site tried to change something as %s, at %s",
          caller.get().personId(), context.normalizedPath());
      context.fail(Refusal.of(ProblemKind.FORGED_REQUEST, new AccessDetail.ForgedRequest()));
    } else {
      context.next();
    }
  }

  /** A token is added by whoever sends the request, and by no browser on its own. */
  private static boolean isForged(HttpServerRequest request, Caller.Proof proof) {
    if (isSafe(request.method().name())) {
      return false;
    }
    return switch (proof) {
      case SESSION -> !isFromHere(request);
      case PASSWORD -> isFromElsewhere(request);
      case TOKEN -> false;
    };
  }

  /** Whether a request changes nothing (RFC 9110, section 9.2.1). */
  static boolean isSafe(String method) {
    return SAFE.contains(method);
  }

  /** Whether the browser says that the request comes from a page of another site. */
  public static boolean isFromElsewhere(HttpServerRequest request) {
    String site = request.getHeader("Sec-Fetch-Site");
    if (site != null && !site.equals("same-origin") && !site.equals("none")) {
      return true;
    }
    String origin = request.getHeader("Origin");
    return origin != null && !isOfHost(origin, request.getHeader("Host"));
  }

  /** Whether the browser says that the request comes from a page of this site. */
  static boolean isFromHere(HttpServerRequest request) {
    return !isFromElsewhere(request)
        && ("same-origin".equals(request.getHeader("Sec-Fetch-Site"))
            || request.getHeader("Origin") != null);
  }

  private static boolean isOfHost(String origin, String host) {
    if (host == null) {
      return false;
    }
    try {
      return host.equalsIgnoreCase(URI.create(origin).getAuthority());
    } catch (IllegalArgumentException malformed) {
      return false;
    }
  }
}
