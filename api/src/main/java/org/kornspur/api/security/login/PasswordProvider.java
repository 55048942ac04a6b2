package org.kornspur.api.security.login;

import io.quarkus.security.identity.AuthenticationRequestContext;
import io.quarkus.security.identity.IdentityProvider;
import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.security.identity.request.UsernamePasswordAuthenticationRequest;
import io.quarkus.vertx.http.runtime.security.HttpSecurityUtils;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.people.Person;
import org.kornspur.api.time.SteadyClock;

/** Authenticates the person and password that came with a request. */
@ApplicationScoped
public class PasswordProvider implements IdentityProvider<UsernamePasswordAuthenticationRequest> {
  @Inject Passwords passwords;

  @Override
  public Class<UsernamePasswordAuthenticationRequest> getRequestType() {
    return UsernamePasswordAuthenticationRequest.class;
  }

  @Override
  public Uni<SecurityIdentity> authenticate(
      UsernamePasswordAuthenticationRequest request, AuthenticationRequestContext worker) {
    String personId = request.getUsername();
    String password = new String(request.getPassword().getPassword());
    Optional<Person> known = passwords.recentlyRight(personId, password);
    if (known.isPresent()) {
      Caller caller = known.get().caller(Caller.Proof.PASSWORD, SteadyClock.ofMachine().instant());
      return Uni.createFrom().item(CallerIdentity.of(caller));
    }
    RoutingContext context = HttpSecurityUtils.getRoutingContextAttribute(request);
    String path = context.normalizedPath();
    String address = ClientAddress.of(context);
    return worker.runBlocking(
        () -> identity(passwords.check(personId, password, address, Caller.Proof.PASSWORD), path));
  }

  private static SecurityIdentity identity(AuthenticationResult result, String path) {
    if (result instanceof AuthenticationResult.Known known) {
      return CallerIdentity.of(known.caller());
    }
    if (result instanceof AuthenticationResult.Issued issued) {
      if (path.equals(RoutePolicy.OWN_PASSWORD)) {
        return CallerIdentity.of(issued.caller());
      }
      throw Refusal.ofIssuedPassword();
    }
    throw ((AuthenticationResult.Refused) result).refusal();
  }
}
