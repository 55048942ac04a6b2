package org.kornspur.api.security.login;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.quarkus.vertx.http.runtime.security.SecurityHandlerPriorities;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.util.Optional;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.Refused;

/** Refuses changes that a page of another site sends with what the browser keeps for this one. */
@ApplicationScoped
public class SameOriginFilter {
  private static final Logger LOG = Logger.getLogger(SameOriginFilter.class);
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
      context.fail(
          new Refused(Refusal.of(ProblemKind.FORGED_REQUEST, new AccessDetail.ForgedRequest())));
    } else {
      context.next();
    }
  }

  /** A token is added by whoever sends the request, and by no browser on its own. */
  private static boolean isForged(HttpServerRequest request, Caller.Proof proof) {
    if (SameOrigin.isSafe(request.method().name())) {
      return false;
    }
    return switch (proof) {
      case SESSION -> !SameOrigin.isFromHere(request);
      case PASSWORD -> SameOrigin.isFromElsewhere(request);
      case TOKEN -> false;
    };
  }
}
