package org.kornspur.api.security.login;

import io.quarkus.security.credential.PasswordCredential;
import io.quarkus.security.identity.IdentityProviderManager;
import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.security.identity.request.UsernamePasswordAuthenticationRequest;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.quarkus.vertx.http.runtime.security.ChallengeData;
import io.quarkus.vertx.http.runtime.security.HttpAuthenticationMechanism;
import io.quarkus.vertx.http.runtime.security.HttpSecurityUtils;
import io.smallrye.mutiny.Uni;
import io.vertx.core.http.Cookie;
import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.enterprise.inject.Alternative;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Optional;
import org.kornspur.api.kafka.InternalSecret;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Refusal;

/**
 * Authenticates the caller, for every request and before anything else looks at it. What they may
 * do is decided afterwards, by {@link RouteAuthorization} and {@link AuthorizationFilter}.
 *
 * <p>An alternative, so that Quarkus asks no other mechanism: that of OpenID Connect is asked from
 * here, and only where the settings say so.
 */
@Alternative
@Priority(1)
@ApplicationScoped
public class RequestAuthentication implements HttpAuthenticationMechanism {
  private static final String BASIC = "basic ";
  private static final String BEARER = "bearer ";

  @Inject AccessSettings settings;
  @Inject Sessions sessions;
  @Inject Tokens tokens;
  @Inject InternalSecret secret;
  @Inject RefusalAnswers answers;

  /** A setting that is missing is told at the start, and not with the first request. */
  void requireSettings(@Observes Filters filters) {
    if (settings.access() == AccessSettings.Means.OIDC) {
      OidcTenant.issuer(settings);
    }
    if (secret.value().isEmpty()) {
      throw new IllegalStateException("There is no secret between instances");
    }
  }

  @Override
  public Uni<SecurityIdentity> authenticate(
      RoutingContext context, IdentityProviderManager providers) {
    return Uni.createFrom().deferred(() -> identity(context, providers));
  }

  /** Null where nobody says who they are. */
  private Uni<SecurityIdentity> identity(
      RoutingContext context, IdentityProviderManager providers) {
    String path = context.normalizedPath();
    if (RoutePolicy.isHealth(path)) {
      return Uni.createFrom().nullItem();
    }
    if (RoutePolicy.isInternal(path)) {
      boolean isInstance = secret.matches(context.request().getHeader(InternalSecret.HEADER));
      return Uni.createFrom().item(isInstance ? CallerIdentity.ofInstance() : null);
    }
    String authorization = context.request().getHeader(HttpHeaders.AUTHORIZATION);
    return switch (settings.access()) {
      case OIDC ->
          startsWith(authorization, BEARER)
              ? tokens.check(context, providers)
              : Uni.createFrom().nullItem();
      case PEOPLE ->
          startsWith(authorization, BASIC)
              ? byPassword(authorization.substring(BASIC.length()), context, providers)
              : Uni.createFrom().optional(bySession(context, authorization));
    };
  }

  private static Uni<SecurityIdentity> byPassword(
      String base64, RoutingContext context, IdentityProviderManager providers) {
    BasicCredentials given =
        BasicCredentials.read(base64)
            .orElseThrow(() -> Refusal.notLoggedIn(new AccessDetail.NoPersonAndPassword()));
    return providers.authenticate(
        HttpSecurityUtils.setRoutingContextAttribute(
            new UsernamePasswordAuthenticationRequest(
                given.personId(), new PasswordCredential(given.password().toCharArray())),
            context));
  }

  private Optional<SecurityIdentity> bySession(RoutingContext context, String authorization) {
    Cookie cookie = context.request().getCookie(Sessions.COOKIE);
    return cookie == null || authorization != null
        ? Optional.empty()
        : sessions.read(cookie.getValue()).map(CallerIdentity::of);
  }

  private static boolean startsWith(String header, String scheme) {
    return header != null && header.regionMatches(true, 0, scheme, 0, scheme.length());
  }

  @Override
  public Uni<ChallengeData> getChallenge(RoutingContext context) {
    return Uni.createFrom().item(answers.challenge(context.request()));
  }

  /** A browser is led to the log-in page; everybody else gets a problem document. */
  @Override
  public Uni<Boolean> sendChallenge(RoutingContext context) {
    if (answers.leadsToLogIn(context.request())) {
      return HttpAuthenticationMechanism.super.sendChallenge(context);
    }
    answers.send(context, Refusal.notLoggedIn(new AccessDetail.NotLoggedIn()));
    return Uni.createFrom().item(true);
  }

  /** What an Authorization header of the Basic scheme holds (RFC 7617). */
  private record BasicCredentials(String personId, String password) {

    static Optional<BasicCredentials> read(String base64) {
      try {
        String both =
            new String(Base64.getDecoder().decode(base64.strip()), StandardCharsets.UTF_8);
        int colon = both.indexOf(':');
        return colon < 1
            ? Optional.empty()
            : Optional.of(
                new BasicCredentials(both.substring(0, colon), both.substring(colon + 1)));
      } catch (IllegalArgumentException malformed) {
        return Optional.empty();
      }
    }

    @Override
    public String toString() {
      return "a person and a password";
    }
  }
}
