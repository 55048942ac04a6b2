package org.kornspur.api.rest;

import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.problem.AccountProblem;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.AccountView;
import org.kornspur.api.security.login.Passwords;
import org.kornspur.api.security.login.ReAuthentication;
import org.kornspur.api.security.login.Sessions;
import org.kornspur.api.security.people.AccountBody;
import org.kornspur.api.security.people.People;

/** One's own account. */
@Path("/api/v1/account")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Access")
public class AccountResource {
  static final int SHORTEST = 12;

  @Inject CurrentCaller caller;
  @Inject Sessions sessions;
  @Inject People people;
  @Inject ReAuthentication reAuthentication;
  @Inject ObjectMapper json;

  @Schema(description = "The old password and the new")
  public record NewPasswordRequest(
      String password, @Schema(description = "12 to 200 characters") String newPassword) {}

  @GET
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Operation(operationId = "getAccount", summary = "Who asks, and what they may do")
  public AccountView get() {
    return AccountView.of(caller.get(), sessions);
  }

  @POST
  @Path("password")
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "changePassword",
      summary = "Choose another password; every log-in with the old one ends",
      description =
          "Also for a password that the administrator issued, which is good for nothing else; it"
              + " must then stand in the Authorization header too.")
  @RequestBody(content = @Content(schema = @Schema(implementation = NewPasswordRequest.class)))
  @APIResponse(responseCode = "204", description = "Changed")
  public Response changePassword(byte[] body) throws IOException {
    AccountBody read = AccountBody.read(json, body);
    String old = read.password("password", 1, Passwords.LONGEST_PASSWORD);
    String chosen = read.password("newPassword", SHORTEST, Passwords.LONGEST_PASSWORD);
    if (!chosen.isEmpty() && chosen.equals(old)) {
      read.note("newPassword", new RequestGiven.NotShown(), new AccountProblem.SamePassword());
    }
    read.check();
    reAuthentication.require(caller.get(), Optional.of(old));
    people.setPassword(caller.get().personId(), chosen);
    return Response.noContent().build();
  }
}
