package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.command.act.RecordsUnauthorizedSigning;
import org.kornspur.api.command.act.ReleaseSigning;
import org.kornspur.api.command.act.ReleasesRequest;
import org.kornspur.api.command.act.ReleasesView;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Where a person releases or suspends several lots at once. */
@Path(Addresses.ROOT + "/release-acts")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Acts")
public class ReleaseActsResource {
  @Inject ReleaseSigning releases;
  @Inject CurrentCaller caller;
  @Inject ProblemLanguage language;

  @POST
  @RecordsUnauthorizedSigning
  @RequiresPermission(Permission.SIGN_ACTS)
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      summary = "Release or suspend several lots at once",
      description =
          "Each lot gets a seal, an act and a signature of its own, and is checked at that moment"
              + " as at its own address. A lot that is no longer what you read, or cannot be signed"
              + " for, is left out with the reason; the others are signed. What is refused is put"
              + " on record.")
  @RequestBody(content = @Content(schema = @Schema(implementation = ReleasesRequest.Body.class)))
  @APIResponse(responseCode = "200", description = "What became of each lot")
  public ReleasesView sign(byte[] body) {
    return ReleasesView.of(
        releases.sign(caller.get(), ReleasesRequest.read(body)), language.words());
  }
}
