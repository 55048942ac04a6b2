package org.kornspur.api.security.login;

import io.quarkus.oidc.runtime.OidcAuthenticationMechanism;
import io.quarkus.security.AuthenticationFailedException;
import io.quarkus.security.identity.IdentityProviderManager;
import io.quarkus.security.identity.SecurityIdentity;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Refusal;

/**
 * Bearer tokens of the issuer. Signature, issuer, audience and expiry are checked by the OpenID
 * Connect client, {@link CallerAugmentor} reads the claims; here it is told in our words why a
 * token is refused. Those that are refused count as requests that nobody logged in for.
 */
@ApplicationScoped
public class Tokens {
  private static final Logger LOG = Logger.getLogger(Tokens.class);
  private static final long RETRY_SECONDS = 5;

  @Inject OidcAuthenticationMechanism oidc;
  @Inject RequestThrottle throttle;
  @Inject AccessSettings settings;

  /** Who a request's token stands for. */
  Uni<SecurityIdentity> check(RoutingContext context, IdentityProviderManager providers) {
    return oidc.authenticate(context, providers)
        .onItem()
        .ifNull()
        .failWith(() -> Refusal.notLoggedIn(new AccessDetail.UnreadableToken()))
        .onFailure()
        .transform(
            failure ->
                throttle.tooManyOfNobody(context).orElseGet(() -> refusal(failure, context)));
  }

  private Refusal refusal(Throwable failure, RoutingContext context) {
    if (failure instanceof Refusal refusal) {
      return refusal;
    }
    if (failure instanceof AuthenticationFailedException) {
      LOG.infof("Token refused from %s", ClientAddress.of(context));
      return Refusal.notLoggedIn(new AccessDetail.UntrustedToken(settings.oidc().issuer()));
    }
    LOG.errorf("The issuer of tokens cannot be asked: %s", failure.toString());
    return Refusal.notReady(new AccessDetail.IssuerSilent(), RETRY_SECONDS);
  }
}
