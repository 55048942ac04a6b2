package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.season.ControlChartView;
import org.kornspur.api.query.season.LaboratoryCharts;
import org.kornspur.api.query.season.LaboratoryView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Whether the germination tests of laboratories are steady. */
@Path(Addresses.ROOT + "/laboratories")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Seasons")
public class LaboratoriesResource {
  @Inject LaboratoryCharts charts;

  @GET
  @RequiresPermission(Permission.READ_CONTROL_CHARTS)
  @Operation(
      operationId = "listLaboratories",
      summary = "Laboratories that have made germination tests",
      description = "A laboratory sees itself alone.")
  @APIResponse(responseCode = "200", description = "The laboratories, by id")
  public List<LaboratoryView> laboratories() {
    return charts.laboratories();
  }

  @GET
  @Path("{id}/control-chart")
  @RequiresPermission(Permission.READ_CONTROL_CHARTS)
  @Operation(
      operationId = "getControlChart",
      summary = "How far the replicates of a laboratory's germination tests lie apart",
      description =
          "Range of the replicates of each test beside its control limit (Shewhart chart of"
              + " ranges) and the published tolerance. Judges no lot.")
  @APIResponse(responseCode = "200", description = "The chart of one year, and all years")
  public ControlChartView chart(
      @Parameter(example = "ENT-LAB-ONE") @PathParam("id") String id,
      @Parameter(
              description = "Year of the tests; the latest where left out",
              schema = @Schema(type = SchemaType.INTEGER))
          @QueryParam("year")
          String year) {
    Parameters parameters = new Parameters();
    Optional<Integer> asked = parameters.whole("year", year, 1990, 2100);
    parameters.check();
    return charts.chart(id, asked);
  }
}
