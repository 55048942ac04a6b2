package org.kornspur.api.security;

import io.quarkus.security.StringPermission;
import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.security.runtime.QuarkusPrincipal;
import io.quarkus.security.runtime.QuarkusSecurityIdentity;
import io.quarkus.vertx.http.runtime.security.QuarkusHttpUser;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * The identity that Quarkus keeps for a request. It carries the {@link Caller}, and answers what is
 * permitted as {@link Permission} has it.
 */
public final class CallerIdentity {
  private static final String CALLER = Caller.class.getName();

  private CallerIdentity() {}

  /** A person who said who they are. */
  public static SecurityIdentity of(Caller caller) {
    return identity(caller.personId(), caller::may).addAttribute(CALLER, caller).build();
  }

  /** Another instance of the same cluster. */
  public static SecurityIdentity ofInstance() {
    return identity("instance", Permission::isOfInstances).build();
  }

  /** Somebody who did not log in. */
  public static SecurityIdentity ofNobody() {
    return identity("", Permission::isOfAnybody).setAnonymous(true).build();
  }

  private static QuarkusSecurityIdentity.Builder identity(String name, Predicate<Permission> may) {
    return QuarkusSecurityIdentity.builder()
        .setPrincipal(new QuarkusPrincipal(name))
        .addPermissionChecker(
            needed -> Uni.createFrom().item(may.test(Permission.valueOf(needed.getName()))));
  }

  /** Whether an identity may do this; answers at once. */
  public static Uni<Boolean> may(SecurityIdentity identity, Permission action) {
    return identity.checkPermission(new StringPermission(action.name()));
  }

  /** The person; empty for an instance and for nobody. */
  public static Optional<Caller> caller(SecurityIdentity identity) {
    return Optional.ofNullable(identity.getAttribute(CALLER));
  }

  /** The person of a request; empty for an instance, for nobody, and before it is known. */
  public static Optional<Caller> caller(RoutingContext context) {
    return of(context).flatMap(CallerIdentity::caller);
  }

  /** Whether a person or an instance said who they are, and was not refused. */
  public static boolean isKnown(RoutingContext context) {
    return of(context).filter(identity -> !identity.isAnonymous()).isPresent();
  }

  private static Optional<SecurityIdentity> of(RoutingContext context) {
    return context.user() instanceof QuarkusHttpUser user
        ? Optional.of(user.getSecurityIdentity())
        : Optional.empty();
  }
}
