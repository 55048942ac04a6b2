package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.command.act.ActRequest;
import org.kornspur.api.command.act.ActSigning;
import org.kornspur.api.command.act.ActView;
import org.kornspur.api.command.act.RecordsUnauthorizedSigning;
import org.kornspur.api.command.act.ReleaseSheetView;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.ingest.contract.Subject;

/** What persons signed for a lot or crop, and where they sign. */
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Acts")
public abstract class ActsResource {
  @Inject ActSigning acts;
  @Inject CurrentCaller caller;

  /** What the id in the address names. */
  abstract Subject subject(String id);

  @GET
  @Path("{id}/release-sheet")
  @RequiresPermission(Permission.READ_ACTS)
  @Operation(summary = "Exactly what a person would sign")
  @APIResponse(responseCode = "200", description = "The sheet, with its seal")
  public ReleaseSheetView sheet(@PathParam("id") String id) {
    return acts.sheetFor(subject(id), caller.get().personId());
  }

  @GET
  @Path("{id}/acts")
  @RequiresPermission(Permission.READ_ACTS)
  @Operation(
      summary = "What persons signed, and what was refused to them",
      description =
          "Printed name, time and meaning of each signature (21 CFR 11.50), what was signed,"
              + " whether the signature verifies, and whether the seal still is that of the present"
              + " state.")
  @APIResponse(responseCode = "200", description = "The acts, by the time of their signing")
  public List<ActView> history(@PathParam("id") String id) {
    return acts.history(subject(id));
  }

  @POST
  @Path("{id}/acts")
  @RecordsUnauthorizedSigning
  @RequiresPermission(Permission.SIGN_ACTS)
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      summary = "Release, suspend, condemn or downgrade; a crop can only be condemned",
      description =
          "Signs the release sheet whose seal is given, under your printed name. Give your password"
              + " again, or come with a token of a fresh log-in. What is refused is put on record.")
  @RequestBody(content = @Content(schema = @Schema(implementation = ActRequest.Body.class)))
  @APIResponse(
      responseCode = "201",
      description = "Signed",
      content = @Content(schema = @Schema(implementation = ActView.class)))
  @APIResponse(
      responseCode = "202",
      description = "Signed and kept; not processed yet, so read the acts again before you go on",
      content = @Content(schema = @Schema(implementation = ActView.class)))
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "422", ref = "#/components/responses/Problem")
  public Response sign(@PathParam("id") String id, byte[] body) {
    ActRequest request = ActRequest.read(body);
    ActSigning.Signed signed = acts.sign(subject(id), caller.get(), request);
    return Response.status(signed.status()).entity(signed.act()).build();
  }
}
