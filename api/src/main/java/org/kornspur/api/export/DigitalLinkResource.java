package org.kornspur.api.export;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.identity.Gtin;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;

/**
 * Leads from what a label's code holds to the lot's page.
 *
 * <p>Source: GS1 Digital Link Standard: URI Syntax 1.2, section 4: {@code /01/} and the GTIN,
 * {@code /10/} and the lot.
 */
@Path("/01/{gtin}/10/{lot}")
@Tag(name = "Labels")
public class DigitalLinkResource {
  @Inject SiteIdentifiers site;
  @Inject VisibleData data;

  @GET
  @RequiresPermission(Permission.READ_LOTS)
  @Operation(operationId = "resolveDigitalLink", summary = "From a GS1 Digital Link to the lot")
  @APIResponse(responseCode = "307", description = "Location is the lot's page")
  public Response resolve(@PathParam("gtin") String gtin, @PathParam("lot") String lotId) {
    data.require(Subject.lot(lotId));
    if (!site.gtinOfLot(lotId).equals(read(gtin))) {
      throw ApiProblem.notFound(
          new RecordDetail.NoLotOfGtin(Given.text(lotId, false), Given.text(gtin, false)));
    }
    return Response.temporaryRedirect(URI.create(site.identifiers().lotPage(lotId))).build();
  }

  private static Optional<Gtin> read(String digits) {
    try {
      return Optional.of(new Gtin(digits));
    } catch (IllegalArgumentException noGtin) {
      throw ApiProblem.notFound(new RecordDetail.NoGtin(Given.text(digits, false)));
    }
  }
}
