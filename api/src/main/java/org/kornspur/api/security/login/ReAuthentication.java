package org.kornspur.api.security.login;

import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.kornspur.api.problem.AccountProblem;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PeopleDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.people.People;
import org.kornspur.api.time.SteadyClock;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Person;

/**
 * Makes sure that the person who signs is there at the time of signing (model: 21 CFR 11.200 (a)):
 * asks for the password again, or for a token of a fresh log-in.
 */
@ApplicationScoped
public class ReAuthentication {

  /** The claim that says when a person logged in with the issuer. */
  static final String AUTH_TIME = "auth_time";

  @Inject Passwords passwords;
  @Inject People people;
  @Inject CurrentVertxRequest request;
  @Inject AccessSettings settings;
  private final Clock clock = SteadyClock.ofMachine();

  /**
   * Asks for proof anew: with a people file the password, with tokens one that was got by a log-in
   * not longer ago than {@code kornspur.signing-window} (otherwise 5 minutes).
   *
   * @param password as given in the body of the request that signs; empty where tokens are used
   * @throws ApiProblem if the proof is missing, wrong or too old
   */
  public void require(Caller caller, Optional<String> password) {
    switch (caller.proof()) {
      case PASSWORD, SESSION -> requirePassword(caller, password.orElse(""));
      case TOKEN -> requireFreshLogIn(caller);
    }
  }

  /**
   * The same for who signs: a password that stands in the place of an issued one signs nothing
   * until somebody else confirmed whose it is.
   *
   * @throws ApiProblem also if nobody did
   */
  public void requireToSign(Caller caller, Optional<String> password) {
    require(caller, password);
    people
        .find(caller.personId())
        .flatMap(org.kornspur.api.security.people.Person::issuedBy)
        .ifPresent(
            issuer -> {
              throw new ApiProblem(
                  ProblemKind.PERSON_CONFLICT, new PeopleDetail.NotConfirmed(issuer));
            });
  }

  private void requirePassword(Caller caller, String password) {
    if (password.isEmpty()) {
      throw problem("password", new Given.Absent(), new AccountProblem.NoPassword());
    }
    AuthenticationResult authentication =
        passwords.check(
            caller.personId(), password, ClientAddress.of(request.getCurrent()), caller.proof());
    if (authentication instanceof AuthenticationResult.Refused refused) {
      if (refused.refusal().document().status() == ProblemKind.TOO_MANY_REQUESTS.status()) {
        throw new ApiProblem(refused.refusal().document());
      }
      throw problem(
          "password",
          new RequestGiven.NotShown(),
          new AccountProblem.WrongPassword(new Person(caller.personId())));
    }
    if (authentication instanceof AuthenticationResult.Issued && !isForOwnPassword()) {
      throw new ApiProblem(Refusal.ofIssuedPassword().document());
    }
  }

  private boolean isForOwnPassword() {
    return request.getCurrent().normalizedPath().equals(RoutePolicy.OWN_PASSWORD);
  }

  private void requireFreshLogIn(Caller caller) {
    Instant loggedIn =
        caller
            .authenticatedAt()
            .orElseThrow(
                () ->
                    problem(
                        "token",
                        new RequestGiven.NoClaim(AUTH_TIME),
                        new AccountProblem.NoLogInTime(AUTH_TIME)));
    Duration window = settings.signingWindow();
    Duration age = Duration.between(loggedIn, clock.instant());
    // of one that lies ahead nobody can tell how long ago it was: a clock was set
    if (age.abs().compareTo(window) > 0) {
      throw problem(
          "token",
          new RequestGiven.LogInBefore(age.toSeconds()),
          new AccountProblem.LogInTooLongAgo(Math.toIntExact(window.toSeconds())));
    }
  }

  private static ApiProblem problem(String field, Statement given, AccountProblem reason) {
    return new ApiProblem(ProblemKind.FRESH_LOG_IN_NEEDED, Problem.of(field, given, reason));
  }
}
