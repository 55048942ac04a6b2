package org.kornspur.api.security.login;

import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.vertx.http.runtime.security.HttpSecurityPolicy;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Optional;
import java.util.function.Supplier;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Refusal;

/**
 * Lets nobody through without a log-in but to the few open addresses, and decides at addresses that
 * no resource answers. At all others {@link AuthorizationFilter} decides what a caller may do.
 */
@ApplicationScoped
public class RouteAuthorization implements HttpSecurityPolicy {

  @Override
  public Uni<CheckResult> checkPermission(
      RoutingContext context,
      Uni<SecurityIdentity> identity,
      AuthorizationRequestContext requestContext) {
    String path = context.normalizedPath();
    return RoutePolicy.isHealth(path)
        ? CheckResult.permit()
        : identity.flatMap(asker -> check(asker, path));
  }

  private static Uni<CheckResult> check(SecurityIdentity asker, String path) {
    if (RoutePolicy.isInternal(path)) {
      return require(
          asker,
          Permission.ASK_AS_INSTANCE,
          () -> Refusal.of(ProblemKind.FORBIDDEN, new AccessDetail.InstancesOnly()));
    }
    if (asker.isAnonymous()) {
      return RoutePolicy.isOpen(path) ? CheckResult.permit() : CheckResult.deny();
    }
    Optional<Permission> needed = RoutePolicy.neededOutsideResources(path);
    return needed.isEmpty()
        ? CheckResult.permit()
        : require(asker, needed.get(), () -> AuthorizationFilter.refusal(asker, needed.get()));
  }

  private static Uni<CheckResult> require(
      SecurityIdentity asker, Permission needed, Supplier<Refusal> otherwise) {
    return CallerIdentity.may(asker, needed)
        .map(
            may -> {
              if (!may) {
                throw otherwise.get();
              }
              return new CheckResult(true);
            });
  }
}
