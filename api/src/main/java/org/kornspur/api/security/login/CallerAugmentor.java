package org.kornspur.api.security.login;

import io.quarkus.security.identity.AuthenticationRequestContext;
import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.security.identity.SecurityIdentityAugmentor;
import io.smallrye.mutiny.Uni;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.eclipse.microprofile.jwt.JsonWebToken;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.Role;
import org.kornspur.ingest.problem.Given;

/**
 * Gives the identities that Quarkus makes itself what {@link CallerIdentity} gives ours: for a
 * token that was checked, the caller of its claims; for nobody, what everybody may do.
 */
@ApplicationScoped
public class CallerAugmentor implements SecurityIdentityAugmentor {
  private final AccessSettings.Oidc settings;

  CallerAugmentor(AccessSettings settings) {
    this.settings = settings.oidc();
  }

  @Override
  public Uni<SecurityIdentity> augment(
      SecurityIdentity identity, AuthenticationRequestContext context) {
    if (identity.isAnonymous()) {
      return Uni.createFrom().item(CallerIdentity.ofNobody());
    }
    return CallerIdentity.caller(identity).isPresent()
        ? Uni.createFrom().item(identity)
        : Uni.createFrom().item(() -> CallerIdentity.of(callerOfToken(identity)));
  }

  private Caller callerOfToken(SecurityIdentity identity) {
    if (!(identity.getPrincipal() instanceof JsonWebToken token)) {
      throw Refusal.notLoggedIn(new AccessDetail.TokenWithoutClaims());
    }
    String personId =
        claim(token, settings.personClaim())
            .orElseThrow(
                () ->
                    Refusal.notLoggedIn(
                        new AccessDetail.TokenWithoutPerson(
                            Given.text(settings.personClaim(), false))));
    return new Caller(
        personId,
        claim(token, settings.nameClaim()).orElse(personId),
        roles(identity.getRoles()),
        claim(token, settings.enterpriseClaim()),
        Caller.Proof.TOKEN,
        authenticatedAt(token));
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
}
