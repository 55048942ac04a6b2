package org.kornspur.api.export.paper;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Response;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Papers on crops, in the language of the caller. */
@Path(Addresses.ROOT + "/crops")
@Produces(LotPapersResource.PDF)
@Tag(name = "Papers")
public class CropPapersResource {
  @Inject DossierPaper dossiers;

  @GET
  @Path("{id}/dossier.pdf")
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(operationId = "dossierOfCrop", summary = "The dossier of a crop, as that of a lot")
  @APIResponse(responseCode = "200", description = "The dossier")
  public Response crop(@PathParam("id") String id) {
    return LotPapersResource.attached(dossiers.print(Subject.crop(id)), "dossier.pdf");
  }
}
