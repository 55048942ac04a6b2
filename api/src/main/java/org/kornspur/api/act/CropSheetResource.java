package org.kornspur.api.act;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.access.Action;
import org.kornspur.api.access.CurrentCaller;
import org.kornspur.api.access.Needs;
import org.kornspur.api.view.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Exactly what a person would sign for a crop. */
@Path(Addresses.ROOT + "/crops/{id}/release-sheet")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Acts")
public class CropSheetResource {
  @Inject Acts acts;
  @Inject CurrentCaller caller;

  @GET
  @Needs(Action.READ_ACTS)
  @Operation(operationId = "sheetOfCrop", summary = "Exactly what would be signed for this crop")
  @APIResponse(responseCode = "200", description = "The sheet, with its seal")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public ReleaseSheetView sheet(@PathParam("id") String id) {
    return acts.sheetFor(Subject.crop(id), caller.get().personId());
  }
}
