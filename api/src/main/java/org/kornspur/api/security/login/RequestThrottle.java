package org.kornspur.api.security.login;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.quarkus.vertx.http.runtime.security.SecurityHandlerPriorities;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.time.Duration;
import java.util.Optional;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.limit.RateLimiter;
import org.kornspur.ingest.statement.Value;

/** Bounds how often a person may ask, and how often an address where nobody logged in. */
@ApplicationScoped
public class RequestThrottle {
  private static final int AFTER_AUTHENTICATION = SecurityHandlerPriorities.AUTHENTICATION - 10;

  private final RateLimiter byPerson;
  private final RateLimiter byAddress;

  RequestThrottle(AccessSettings settings) {
    this.byPerson = new RateLimiter(settings.requestsPerMinute(), Duration.ofMinutes(1));
    this.byAddress = new RateLimiter(settings.anonymousRequestsPerMinute(), Duration.ofMinutes(1));
  }

  void register(@Observes Filters filters) {
    filters.register(this::count, AFTER_AUTHENTICATION);
  }

  private void count(RoutingContext context) {
    String path = context.normalizedPath();
    boolean isFree = RoutePolicy.isHealth(path) || RoutePolicy.isInternal(path);
    Optional<Refusal> tooMany = isFree ? Optional.empty() : tooMany(context);
    tooMany.ifPresentOrElse(context::fail, context::next);
  }

  private Optional<Refusal> tooMany(RoutingContext context) {
    Optional<Caller> caller = CallerIdentity.caller(context);
    return caller.isPresent() ? tooManyOf(caller.get()) : tooManyOfNobody(context);
  }

  private Optional<Refusal> tooManyOf(Caller caller) {
    AccessDetail detail =
        new AccessDetail.TooManyOfPerson(byPerson.most(), new Value.Person(caller.personId()));
    return refusal(byPerson, caller.personId(), detail);
  }

  /** Counts a request that nobody logged in for; empty where there were not too many. */
  Optional<Refusal> tooManyOfNobody(RoutingContext context) {
    String address = ClientAddress.of(context);
    return refusal(
        byAddress, address, new AccessDetail.TooManyWithoutLogIn(byAddress.most(), address));
  }

  private static Optional<Refusal> refusal(RateLimiter limiter, String name, AccessDetail detail) {
    return limiter.take(name).stream()
        .mapToObj(seconds -> Refusal.tooMany(detail, seconds))
        .findFirst();
  }
}
