package org.kornspur.api.security.login;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.Cookie;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.core.net.SocketAddress;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import java.util.Optional;
import java.util.OptionalLong;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.InternalSecret;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.people.PeopleUnreadable;
import org.kornspur.api.security.people.Person;
import org.kornspur.ingest.statement.Value;

/**
 * Stands before everything: finds out who asks, bounds how often, and lets nobody through without a
 * log-in but to the few open addresses. What a caller may do at an address, {@link
 * AuthorizationFilter} decides; at addresses that no resource answers, this gate does.
 */
@ApplicationScoped
public class AuthenticationFilter {
  private static final Logger LOG = Logger.getLogger(AuthenticationFilter.class);
  private static final int BEFORE_ALL_OTHERS = 2000;
  private static final String BASIC = "basic ";
  private static final String BEARER = "bearer ";

  /** Under these names the gate leaves in the request what it found. */
  public static final String CALLER = Caller.class.getName();

  public static final String INSTANCE = InternalSecret.class.getName();

  private final AccessSettings settings;
  private final Passwords passwords;
  private final Sessions sessions;
  private final Tokens tokens;
  private final InternalSecret secret;
  private final ObjectMapper json;
  private final RateLimiter byPerson;
  private final RateLimiter byAddress;

  @Inject
  AuthenticationFilter(
      AccessSettings settings,
      Passwords passwords,
      Sessions sessions,
      Tokens tokens,
      InternalSecret secret,
      ObjectMapper json) {
    this.settings = settings;
    this.passwords = passwords;
    this.sessions = sessions;
    this.tokens = tokens;
    this.secret = secret;
    this.json = json;
    this.byPerson = new RateLimiter(settings.requestsPerMinute(), Duration.ofMinutes(1));
    this.byAddress = new RateLimiter(settings.anonymousRequestsPerMinute(), Duration.ofMinutes(1));
  }

  void register(@Observes Filters filters) {
    if (settings.access() == AccessSettings.Means.OIDC) {
      OidcTenant.issuer(settings);
    }
    if (secret.value().isEmpty()) {
      throw new IllegalStateException("There is no secret between instances");
    }
    filters.register(this::enter, BEFORE_ALL_OTHERS);
  }

  private void enter(RoutingContext context) {
    String path = context.normalizedPath();
    if (RoutePolicy.isHealth(path)) {
      context.next();
    } else if (RoutePolicy.isInternal(path)) {
      enterAsInstance(context);
    } else {
      try {
        enterAsPerson(context, path);
      } catch (PeopleUnreadable unreadable) {
        refuse(context, unreadable.refusal());
      }
    }
  }

  private void enterAsInstance(RoutingContext context) {
    if (secret.matches(context.request().getHeader(InternalSecret.HEADER))) {
      context.put(INSTANCE, true);
      context.next();
    } else {
      refuse(context, Refusal.of(ProblemKind.FORBIDDEN, new AccessDetail.InstancesOnly()));
    }
  }

  private void enterAsPerson(RoutingContext context, String path) {
    HttpServerRequest request = context.request();
    String authorization = request.getHeader(HttpHeaders.AUTHORIZATION);
    Cookie session = request.getCookie(Sessions.COOKIE);
    boolean byToken = settings.access() == AccessSettings.Means.OIDC;
    if (byToken && startsWith(authorization, BEARER)) {
      request.pause();
      tokens
          .check(context)
          .subscribe()
          .with(
              authentication -> resume(context, path, counted(context, authentication)),
              context::fail);
    } else if (!byToken && startsWith(authorization, BASIC)) {
      enterWithPassword(context, path, authorization);
    } else if (!byToken && session != null && authorization == null) {
      Optional<Caller> caller = sessions.read(session.getValue());
      if (caller.isPresent()) {
        admit(context, path, caller.get());
      } else {
        enterUnknown(context, path);
      }
    } else {
      enterUnknown(context, path);
    }
  }

  private void enterWithPassword(RoutingContext context, String path, String authorization) {
    Optional<PersonAndPassword> given =
        PersonAndPassword.read(authorization.substring(BASIC.length()));
    if (given.isEmpty()) {
      refuse(
          context, Refusal.of(ProblemKind.NOT_LOGGED_IN, new AccessDetail.NoPersonAndPassword()));
      return;
    }
    String personId = given.get().personId();
    String password = given.get().password();
    Optional<Person> known = passwords.recentlyRight(personId, password);
    if (known.isPresent()) {
      admit(context, path, known.get().caller(Caller.Proof.PASSWORD, java.time.Instant.now()));
      return;
    }
    context.request().pause();
    String address = address(context);
    context
        .vertx()
        .executeBlocking(
            () -> passwords.check(personId, password, address, Caller.Proof.PASSWORD), false)
        .onSuccess(authentication -> resume(context, path, authentication))
        .onFailure(
            failure -> {
              context.request().resume();
              if (failure instanceof PeopleUnreadable unreadable) {
                refuse(context, unreadable.refusal());
              } else {
                context.fail(failure);
              }
            });
  }

  /** Tokens that are no good count as requests that nobody logged in for. */
  private AuthenticationResult counted(
      RoutingContext context, AuthenticationResult authentication) {
    if (authentication instanceof AuthenticationResult.Known) {
      return authentication;
    }
    OptionalLong wait = byAddress.take(address(context));
    return wait.isPresent()
        ? new AuthenticationResult.Refused(tooManyOfNobody(context, wait.getAsLong()))
        : authentication;
  }

  private Refusal tooManyOfNobody(RoutingContext context, long waitSeconds) {
    return Refusal.tooMany(
        new AccessDetail.TooManyWithoutLogIn(byAddress.most(), address(context)), waitSeconds);
  }

  private void resume(RoutingContext context, String path, AuthenticationResult authentication) {
    context.request().resume();
    if (authentication instanceof AuthenticationResult.Known known) {
      admit(context, path, known.caller());
    } else if (authentication instanceof AuthenticationResult.Issued issued) {
      enterWithIssuedPassword(context, path, issued.caller());
    } else {
      refuse(context, ((AuthenticationResult.Refused) authentication).refusal());
    }
  }

  private void enterWithIssuedPassword(RoutingContext context, String path, Caller caller) {
    if (path.equals(RoutePolicy.OWN_PASSWORD)) {
      admit(context, path, caller);
    } else {
      refuse(context, Refusal.ofIssuedPassword());
    }
  }

  private void admit(RoutingContext context, String path, Caller caller) {
    OptionalLong wait = byPerson.take(caller.personId());
    if (wait.isPresent()) {
      refuse(
          context,
          Refusal.tooMany(
              new AccessDetail.TooManyOfPerson(
                  byPerson.most(), new Value.Person(caller.personId())),
              wait.getAsLong()));
      return;
    }
    if (isForged(context, caller)) {
      LOG.warnf(
          "A page of another site tried to change something as %s, at %s", caller.personId(), path);
      refuse(context, Refusal.of(ProblemKind.FORGED_REQUEST, new AccessDetail.ForgedRequest()));
      return;
    }
    Optional<Permission> needed = RoutePolicy.neededOutsideResources(path);
    if (needed.isPresent() && !caller.may(needed.get())) {
      refuse(context, AuthorizationFilter.forbidden(caller, needed.get()));
      return;
    }
    context.put(CALLER, caller);
    context.next();
  }

  /** A token is added by whoever sends the request, and by no browser on its own. */
  private static boolean isForged(RoutingContext context, Caller caller) {
    HttpServerRequest request = context.request();
    if (SameOrigin.isSafe(request.method().name())) {
      return false;
    }
    return switch (caller.proof()) {
      case SESSION -> !SameOrigin.isFromHere(request);
      case PASSWORD -> SameOrigin.isFromElsewhere(request);
      case TOKEN -> false;
    };
  }

  private void enterUnknown(RoutingContext context, String path) {
    OptionalLong wait = byAddress.take(address(context));
    if (wait.isPresent()) {
      refuse(context, tooManyOfNobody(context, wait.getAsLong()));
    } else if (RoutePolicy.isOpen(path)) {
      context.next();
    } else if (isOpenedInABrowser(context.request())) {
      context
          .response()
          .setStatusCode(303)
          .putHeader(
              HttpHeaders.LOCATION,
              RoutePolicy.LOG_IN
                  + "?next="
                  + URLEncoder.encode(target(context), StandardCharsets.UTF_8))
          .end();
    } else {
      refuse(context, Refusal.of(ProblemKind.NOT_LOGGED_IN, new AccessDetail.NotLoggedIn()));
    }
  }

  private static String target(RoutingContext context) {
    String query = context.request().query();
    return query == null ? context.request().path() : context.request().path() + "?" + query;
  }

  private boolean isOpenedInABrowser(HttpServerRequest request) {
    String accept = request.getHeader(HttpHeaders.ACCEPT);
    return settings.access() == AccessSettings.Means.PEOPLE
        && request.method().name().equals("GET")
        && accept != null
        && accept.contains("text/html");
  }

  private void refuse(RoutingContext context, Refusal refusal) {
    refusal
        .retryAfterSeconds()
        .ifPresent(
            seconds ->
                context.response().putHeader(HttpHeaders.RETRY_AFTER, Long.toString(seconds)));
    if (refusal.document().status() == ProblemKind.NOT_LOGGED_IN.status()) {
      context.response().putHeader("WWW-Authenticate", challenge(context.request()));
    }
    context.response().putHeader(HttpHeaders.CACHE_CONTROL, "no-store");
    ProblemAnswer.end(context, refusal.document(), json);
  }

  private String challenge(HttpServerRequest request) {
    return switch (settings.access()) {
      case PEOPLE ->
          isBrowser(request)
              ? "Session realm=\"Kornspur\""
              : "Basic realm=\"Kornspur\", charset=\"UTF-8\"";
      case OIDC -> "Bearer realm=\"Kornspur\"";
    };
  }

  /**
   * Whether a page's script or the person before a browser asks. For Basic a browser would ask for
   * a password in a window of its own, and would answer the script only when that is closed.
   */
  private static boolean isBrowser(HttpServerRequest request) {
    return startsWith(request.getHeader(HttpHeaders.USER_AGENT), "Mozilla/");
  }

  public static String address(RoutingContext context) {
    SocketAddress remote = context.request().remoteAddress();
    // a proxy may name a host that is no address
    return remote.hostAddress() == null ? remote.host() : remote.hostAddress();
  }

  private static boolean startsWith(String header, String scheme) {
    return header != null && header.regionMatches(true, 0, scheme, 0, scheme.length());
  }

  /** What an Authorization header of the Basic scheme holds (RFC 7617). */
  private record PersonAndPassword(String personId, String password) {

    static Optional<PersonAndPassword> read(String base64) {
      try {
        String both =
            new String(Base64.getDecoder().decode(base64.strip()), StandardCharsets.UTF_8);
        int colon = both.indexOf(':');
        return colon < 1
            ? Optional.empty()
            : Optional.of(
                new PersonAndPassword(both.substring(0, colon), both.substring(colon + 1)));
      } catch (IllegalArgumentException malformed) {
        return Optional.empty();
      }
    }
  }
}
