package org.kornspur.api.security.login;

import io.quarkus.oidc.runtime.OidcAuthenticationMechanism;
import io.quarkus.security.AuthenticationFailedException;
import io.quarkus.security.identity.IdentityProviderManager;
import io.quarkus.security.identity.SecurityIdentity;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.eclipse.microprofile.jwt.JsonWebToken;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.Role;
import org.kornspur.ingest.problem.Given;

/**
 * Bearer tokens of the issuer: signature, issuer, audience and expiry are checked by the OpenID
 * Connect client; here its claims become a caller.
 */
@ApplicationScoped
public class Tokens {
  private static final Logger LOG = Logger.getLogger(Tokens.class);
  private static final long RETRY_SECONDS = 5;

  private final OidcAuthenticationMechanism oidc;
  private final IdentityProviderManager providers;
  private final AccessSettings.Oidc settings;

  @Inject
  Tokens(
      OidcAuthenticationMechanism oidc,
      IdentityProviderManager providers,
      AccessSettings settings) {
    this.oidc = oidc;
    this.providers = providers;
    this.settings = settings.oidc();
  }

  /** Who a request's token stands for. */
  Uni<AuthenticationResult> check(RoutingContext context) {
    return oidc.authenticate(context, providers)
        .map(
            identity ->
                identity == null
                    ? refused(new AccessDetail.UnreadableToken())
                    : authentication(identity))
        .onFailure(AuthenticationFailedException.class)
        .recoverWithItem(
            failure -> {
              LOG.infof("Token refused from %s", AuthenticationFilter.address(context));
              return refused(new AccessDetail.UntrustedToken(settings.issuer()));
            })
        .onFailure()
        .recoverWithItem(
            failure -> {
              LOG.errorf("The issuer of tokens cannot be asked: %s", failure.toString());
              return new AuthenticationResult.Refused(
                  new Refusal(
                      org.kornspur.api.problem.ProblemDocument.of(
                          ProblemKind.NOT_READY, new AccessDetail.IssuerSilent()),
                      java.util.OptionalLong.of(RETRY_SECONDS)));
            });
  }

  private AuthenticationResult authentication(SecurityIdentity identity) {
    if (!(identity.getPrincipal() instanceof JsonWebToken token)) {
      return refused(new AccessDetail.TokenWithoutClaims());
    }
    Optional<String> personId = claim(token, settings.personClaim());
    if (personId.isEmpty()) {
      return refused(
          new AccessDetail.TokenWithoutPerson(Given.text(settings.personClaim(), false)));
    }
    return new AuthenticationResult.Known(
        new Caller(
            personId.get(),
            claim(token, settings.nameClaim()).orElse(personId.get()),
            roles(identity.getRoles()),
            claim(token, settings.enterpriseClaim()),
            Caller.Proof.TOKEN,
            authenticatedAt(token)));
  }

  private static Set<Role> roles(Set<String> words) {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    Arrays.stream(Role.values())
        .filter(role -> words.stream().anyMatch(role.name()::equalsIgnoreCase))
        .forEach(roles::add);
    return roles;
  }

  private static Optional<String> claim(JsonWebToken token, String name) {
    Object value = token.getClaim(name);
    return value == null || value.toString().isBlank()
        ? Optional.empty()
        : Optional.of(value.toString());
  }

  /**
   * {@code auth_time} of OpenID Connect Core, section 2, and never {@code iat}, which moves on with
   * every refresh that nobody is there for. Where the claim is absent the library says 0.
   */
  private static Optional<Instant> authenticatedAt(JsonWebToken token) {
    return claim(token, ReAuthentication.AUTH_TIME)
        .filter(seconds -> seconds.matches("[1-9][0-9]{0,10}"))
        .map(seconds -> Instant.ofEpochSecond(Long.parseLong(seconds)));
  }

  private static AuthenticationResult refused(AccessDetail detail) {
    return new AuthenticationResult.Refused(Refusal.of(ProblemKind.NOT_LOGGED_IN, detail));
  }
}
