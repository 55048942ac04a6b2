package org.kornspur.api.export;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Response;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.geojson.GroundFeatures;
import org.kornspur.api.http.Attachment;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** A crop in forms for others. */
@Path(Addresses.ROOT + "/crops")
@Tag(name = "Exports")
public class CropExportsResource {
  @Inject GroundExport ground;

  @GET
  @Path("{id}/ground.geojson")
  @Produces(GroundFeatures.MEDIA_TYPE)
  @RequiresPermission(Permission.READ_CROPS)
  @HeavyDocument
  @Operation(
      operationId = "cropGroundGeoJson",
      summary = "The field of a crop, its isolation zone and what sheds pollen around it",
      description =
          "A FeatureCollection after RFC 7946. Crops and sources have the fields of their facts as"
              + " properties, so that the file can be sent in again.")
  @APIResponse(
      responseCode = "200",
      description = "GeoJSON",
      content = @Content(schema = @Schema(ref = "#/components/schemas/GeoJson")))
  public Response ground(@Parameter(example = "C-24-012") @PathParam("id") String id) {
    return Attachment.of("ground-" + id + ".geojson", ground.ofCrop(Subject.crop(id)));
  }
}
