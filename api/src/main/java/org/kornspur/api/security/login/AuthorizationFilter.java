package org.kornspur.api.security.login;

import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.ext.Provider;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Permissions;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.Role;

/**
 * Lets a caller reach a resource method only where its {@link RequiresPermission} is allowed to a
 * role of theirs.
 */
@Provider
@Priority(Priorities.AUTHORIZATION)
public class AuthorizationFilter implements ContainerRequestFilter {
  private static final Logger LOG = Logger.getLogger(AuthorizationFilter.class);

  @Inject CurrentVertxRequest vertxRequest;
  @Inject CurrentCaller currentCaller;
  @Inject FormTokens formTokens;
  @Context ResourceInfo resource;

  @Override
  public void filter(ContainerRequestContext request) throws IOException {
    RoutingContext context = vertxRequest.getCurrent();
    Caller caller = context.get(AuthenticationFilter.CALLER);
    RequiresPermission needs = resource.getResourceMethod().getAnnotation(RequiresPermission.class);
    if (needs == null) {
      LOG.errorf(
          "%s says nothing of what it needs, and so is refused", resource.getResourceMethod());
      refuse(request, Refusal.of(ProblemKind.FORBIDDEN, new AccessDetail.NobodyMay()));
    } else if (caller == null) {
      enterWithoutLogIn(request, context, needs.value());
    } else if (!caller.may(needs.value())) {
      refuse(request, forbidden(caller, needs.value()));
    } else if (!formTokens.isGood(request, caller)) {
      refuse(request, Refusal.of(ProblemKind.FORGED_REQUEST, new AccessDetail.NoFormToken()));
    } else {
      currentCaller.is(caller);
    }
  }

  private static void enterWithoutLogIn(
      ContainerRequestContext request, RoutingContext context, Permission needed) {
    boolean isInstance = Boolean.TRUE.equals(context.get(AuthenticationFilter.INSTANCE));
    boolean may =
        isInstance ? needed == Permission.ASK_AS_INSTANCE : Permissions.allowAnybody(needed);
    if (!may) {
      refuse(request, Refusal.of(ProblemKind.NOT_LOGGED_IN, new AccessDetail.NotLoggedIn()));
    }
  }

  public static Refusal forbidden(Caller caller, Permission action) {
    List<Role> allowed =
        Arrays.stream(Role.values()).filter(role -> Permissions.allow(role, action)).toList();
    LOG.infof("%s may not %s", caller.personId(), action);
    return Refusal.of(
        ProblemKind.FORBIDDEN,
        allowed.isEmpty()
            ? new AccessDetail.NobodyMay()
            : new AccessDetail.OtherRoles(caller.roles().stream().sorted().toList(), allowed));
  }

  private static void refuse(ContainerRequestContext request, Refusal refusal) {
    request.abortWith(refusal.answer().build());
  }
}
