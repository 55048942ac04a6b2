package org.kornspur.api.access;

import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.ingest.intake.Problem;

/** Asks for the password again, or for a token of a fresh log-in. */
@ApplicationScoped
public class ProofAnew implements ReAuthentication {

  /** The claim that says when a person logged in with the issuer. */
  static final String AUTH_TIME = "auth_time";

  private final Passwords passwords;
  private final CurrentVertxRequest request;
  private final Duration window;
  private final Clock clock = Clock.systemUTC();

  @Inject
  ProofAnew(AccessSettings settings, Passwords passwords, CurrentVertxRequest request) {
    this.passwords = passwords;
    this.request = request;
    this.window = settings.signingWindow();
  }

  @Override
  public void require(Caller caller, Optional<String> password) {
    switch (caller.proof()) {
      case PASSWORD, SESSION -> requirePassword(caller, password.orElse(""));
      case TOKEN -> requireFreshLogIn(caller);
    }
  }

  private void requirePassword(Caller caller, String password) {
    if (password.isEmpty()) {
      throw problem("password", "absent", "your password", "Give it again to sign");
    }
    Knock knock =
        passwords.check(
            caller.personId(), password, Gate.address(request.getCurrent()), caller.proof());
    if (knock instanceof Knock.Refused refused) {
      if (refused.refusal().document().status() == ProblemKind.TOO_MANY_REQUESTS.status()) {
        throw new ApiProblem(refused.refusal().document());
      }
      throw problem(
          "password",
          "not shown",
          "the password of " + caller.personId(),
          "Give your own password; nothing was signed");
    }
    if (knock instanceof Knock.Issued && !isForOwnPassword()) {
      throw new ApiProblem(Refusal.ofIssuedPassword().document());
    }
  }

  private boolean isForOwnPassword() {
    return request.getCurrent().normalizedPath().equals(Places.OWN_PASSWORD);
  }

  private void requireFreshLogIn(Caller caller) {
    Instant loggedIn =
        caller
            .authenticatedAt()
            .orElseThrow(
                () ->
                    problem(
                        "token",
                        "without the claim " + AUTH_TIME + ", or with one that is no number",
                        "a claim " + AUTH_TIME + " with the second of the log-in",
                        "Have the issuer put the claim "
                            + AUTH_TIME
                            + " into its access tokens, then log in again; nothing was signed"));
    Duration age = Duration.between(loggedIn, clock.instant());
    if (age.compareTo(window) > 0) {
      throw problem(
          "token",
          "of a log-in " + age.toSeconds() + " s ago",
          "at most " + window.toSeconds() + " s ago",
          "Log in with the issuer again and send the new token; nothing was signed");
    }
  }

  private static ApiProblem problem(String field, String value, String limit, String remedy) {
    return new ApiProblem(
        ProblemKind.FRESH_LOG_IN_NEEDED, List.of(new Problem(field, value, limit, remedy)));
  }
}
