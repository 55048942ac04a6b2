package org.kornspur.api.rest;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.net.URI;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Refusal;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.AccountView;
import org.kornspur.api.security.login.AuthenticationResult;
import org.kornspur.api.security.login.ClientAddress;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.security.login.Passwords;
import org.kornspur.api.security.login.RoutePolicy;
import org.kornspur.api.security.login.SameOriginFilter;
import org.kornspur.api.security.login.Sessions;
import org.kornspur.api.security.people.AccountBody;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.Person;

/** Logging in and out with a cookie, for pages; scripts send person and password each time. */
@Path(RoutePolicy.SESSION)
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Access")
public class SessionResource {
  @Inject Passwords passwords;
  @Inject Sessions sessions;
  @Inject People people;
  @Inject CurrentCaller caller;
  @Inject CurrentVertxRequest request;
  @Inject ObjectMapper json;

  @Schema(description = "Person and password")
  public record LogIn(@Schema(examples = "quality") String personId, String password) {
    @Override
    public String toString() {
      return "a log-in";
    }
  }

  @POST
  @RequiresPermission(Permission.LOG_IN)
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "logIn",
      summary = "Log in with a cookie",
      description =
          "The cookie is HttpOnly and SameSite=Strict. Changes that go with it must carry the"
              + " csrfToken of the answer.")
  @RequestBody(content = @Content(schema = @Schema(implementation = LogIn.class)))
  @APIResponse(
      responseCode = "200",
      description = "Logged in",
      content = @Content(schema = @Schema(implementation = AccountView.class)))
  @APIResponse(responseCode = "401", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "403", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "413", ref = "#/components/responses/Problem")
  public Response logIn(byte[] body) throws IOException {
    AccountBody read = AccountBody.read(json, body);
    String personId = read.text("personId");
    String password = read.password("password", 1, Passwords.LONGEST_PASSWORD);
    read.check();
    AuthenticationResult authentication = authentication(personId, password);
    if (authentication instanceof AuthenticationResult.Known known) {
      return loggedIn(Response.ok(AccountView.of(known.caller(), sessions)), known.caller());
    }
    return (authentication instanceof AuthenticationResult.Refused refused
            ? refused.refusal()
            : Refusal.ofIssuedPassword())
        .answer()
        .build();
  }

  @POST
  @RequiresPermission(Permission.LOG_IN)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Operation(hidden = true)
  public Response logInByForm(byte[] body) {
    FormFields form = FormFields.of(body);
    String next = form.first("next").orElse("");
    AuthenticationResult authentication =
        authentication(
            form.first("personId").orElse("").strip(), form.first("password").orElse(""));
    if (authentication instanceof AuthenticationResult.Known known) {
      return loggedIn(Response.seeOther(URI.create(RoutePolicy.afterLogIn(next))), known.caller());
    }
    if (authentication instanceof AuthenticationResult.Issued issued) {
      return setOwn(issued.caller().personId(), form, next);
    }
    Refusal refusal = ((AuthenticationResult.Refused) authentication).refusal();
    String why =
        refusal.document().status() == ProblemKind.TOO_MANY_REQUESTS.status() ? "wait" : "wrong";
    return Response.seeOther(URI.create(RoutePolicy.logInAgain(next, why))).build();
  }

  /** The form asks for a password of one's own where the one that came is an issued one. */
  private Response setOwn(String personId, FormFields form, String next) {
    String chosen = form.first("newPassword").orElse("");
    boolean isGood =
        chosen.length() >= AccountResource.SHORTEST
            && chosen.length() <= Passwords.LONGEST_PASSWORD
            && !chosen.equals(form.first("password").orElse(""));
    if (!isGood) {
      return Response.seeOther(URI.create(RoutePolicy.logInAgain(next, "own"))).build();
    }
    Person person = people.setPassword(personId, chosen);
    Caller own = person.caller(Caller.Proof.SESSION, person.sessionsFrom());
    return loggedIn(Response.seeOther(URI.create(RoutePolicy.afterLogIn(next))), own);
  }

  private Response loggedIn(Response.ResponseBuilder answer, Caller caller) {
    return answer
        .cookie(sessions.begin(caller, isSecure()))
        .header(HttpHeaders.CACHE_CONTROL, "no-store")
        .build();
  }

  @DELETE
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Operation(operationId = "logOut", summary = "End every log-in of the person who asks")
  @APIResponse(responseCode = "204", description = "Logged out")
  public Response logOut() {
    people.endSessions(caller.get().personId());
    return Response.noContent().cookie(sessions.end(isSecure())).build();
  }

  /** For pages, whose forms can only post. */
  @POST
  @Path("end")
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Operation(hidden = true)
  public Response logOutByForm() {
    people.endSessions(caller.get().personId());
    return Response.seeOther(URI.create(RoutePolicy.LOG_IN))
        .cookie(sessions.end(isSecure()))
        .build();
  }

  private AuthenticationResult authentication(String personId, String password) {
    RoutingContext context = request.getCurrent();
    if (SameOriginFilter.isFromElsewhere(context.request())) {
      throw new ApiProblem(ProblemKind.FORGED_REQUEST, new AccessDetail.ForgedLogIn());
    }
    return passwords.check(personId, password, ClientAddress.of(context), Caller.Proof.SESSION);
  }

  private boolean isSecure() {
    return request.getCurrent().request().isSSL();
  }
}
