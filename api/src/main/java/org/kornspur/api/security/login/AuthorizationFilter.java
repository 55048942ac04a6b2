package org.kornspur.api.security.login;

import io.quarkus.security.identity.SecurityIdentity;
import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.ext.Provider;
import java.io.IOException;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.people.People;

/**
 * Lets a caller reach a resource method only where its {@link RequiresPermission} is permitted to
 * the identity of the request. A method without it is refused: the setting of Quarkus for that
 * knows only annotations of Quarkus, which name a permission by a text and not by {@link
 * Permission}.
 */
@Provider
@Priority(Priorities.AUTHORIZATION)
public class AuthorizationFilter implements ContainerRequestFilter {
  private static final Logger LOG = Logger.getLogger(AuthorizationFilter.class);

  private static final Set<Permission> WITHOUT_CONFIRMATION =
      EnumSet.of(Permission.LOG_IN, Permission.READ_HELP, Permission.OWN_ACCOUNT);

  @Inject SecurityIdentity identity;
  @Inject CurrentCaller currentCaller;
  @Inject FormTokens formTokens;
  @Inject People people;
  @Context ResourceInfo resource;

  @Override
  public void filter(ContainerRequestContext request) throws IOException {
    RequiresPermission needs = resource.getResourceMethod().getAnnotation(RequiresPermission.class);
    if (needs == null) {
      LOG.errorf(
          "%s says nothing of what it needs, and so is refused", resource.getResourceMethod());
      refuse(request, Refusal.of(ProblemKind.FORBIDDEN, new AccessDetail.NobodyMay()));
      return;
    }
    if (!CallerIdentity.may(identity, needs.value()).await().indefinitely()) {
      refuse(request, refusal(identity, needs.value()));
      return;
    }
    Optional<Caller> caller = CallerIdentity.caller(identity);
    Optional<Refusal> notConfirmed = caller.flatMap(asker -> notConfirmed(asker, needs.value()));
    if (notConfirmed.isPresent()) {
      refuse(request, notConfirmed.get());
      return;
    }
    if (caller.isPresent() && !formTokens.isGood(request, caller.get())) {
      refuse(request, Refusal.of(ProblemKind.FORGED_REQUEST, new AccessDetail.NoFormToken()));
      return;
    }
    caller.ifPresent(currentCaller::set);
  }

  /** Who issued a password knows it, until somebody else confirmed that the person set another. */
  private Optional<Refusal> notConfirmed(Caller caller, Permission action) {
    return caller.proof() == Caller.Proof.TOKEN || WITHOUT_CONFIRMATION.contains(action)
        ? Optional.empty()
        : people
            .heldBackBy(caller.personId())
            .map(by -> Refusal.of(ProblemKind.FORBIDDEN, new AccessDetail.NotConfirmed(by)));
  }

  /** Why an identity may not do this. */
  static Refusal refusal(SecurityIdentity identity, Permission action) {
    return CallerIdentity.caller(identity)
        .map(caller -> forbidden(caller, action))
        .orElseGet(() -> Refusal.notLoggedIn(new AccessDetail.NotLoggedIn()));
  }

  private static Refusal forbidden(Caller caller, Permission action) {
    LOG.infof("%s may not %s", caller.personId(), action);
    return Refusal.of(
        ProblemKind.FORBIDDEN,
        action.roles().isEmpty()
            ? new AccessDetail.NobodyMay()
            : new AccessDetail.OtherRoles(
                caller.roles().stream().sorted().toList(), action.roles()));
  }

  private static void refuse(ContainerRequestContext request, Refusal refusal) {
    request.abortWith(refusal.answer().build());
  }
}
