package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.query.recall.CountedStock;
import org.kornspur.api.query.recall.RecallDrills;
import org.kornspur.api.query.recall.RecallSheet;
import org.kornspur.api.query.recall.RecallView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Recall drills of lots. */
@Path(Addresses.ROOT + "/lots")
@Tag(name = "Lots")
public class RecallResource {
  private static final String CSV = "text/csv";

  @Inject RecallDrills drills;

  @GET
  @Path("{id}/recall-drill")
  @RequiresPermission(Permission.READ_TRACE)
  @HeavyDocument
  @Produces(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "recallDrill",
      summary = "Recall drill: back, forward to the labels at the customers, and mass balance",
      description =
          "Changes nothing. The balance is that of the lot and of all that it went into: in = out +"
              + " stock + loss, within the tolerance by which the lot was judged.")
  @APIResponse(responseCode = "200", description = "The drill; it says whether it is complete")
  @APIResponse(responseCode = "400", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public RecallView drill(
      @PathParam("id") String id,
      @Parameter(
              description =
                  "What was counted in store, lot:kilograms, as often as needed; what nobody"
                      + " counted is what the books leave",
              example = "F1-24-007:1250")
          @QueryParam("stock")
          List<String> stock) {
    return drills.drill(Subject.lot(id), CountedStock.of(stock));
  }

  @GET
  @Path("{id}/recall-drill.csv")
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Produces(CSV)
  @Operation(operationId = "recallDrillSheet", summary = "The recall drill as a table")
  @APIResponse(responseCode = "200", description = "The table, guarded against formulas")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public Response sheet(@PathParam("id") String id, @QueryParam("stock") List<String> stock) {
    RecallView drill = drills.drill(Subject.lot(id), CountedStock.of(stock));
    return Response.ok(RecallSheet.write(drill), CSV + ";charset=UTF-8")
        .header(HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"recall-drill.csv\"")
        .build();
  }
}
