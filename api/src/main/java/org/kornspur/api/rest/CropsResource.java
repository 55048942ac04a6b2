package org.kornspur.api.rest;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.query.view.NeighboursView;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Seed crops, each on one field in one crop year. */
@Path(Addresses.ROOT + "/crops")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Crops")
public class CropsResource extends HistoryResource {
  @GET
  @RequiresPermission(Permission.READ_CROPS)
  @Operation(operationId = "listCrops", summary = "List crops, worst first")
  @APIResponse(responseCode = "200", description = "One page")
  public PageView<StandingLineView> list(@BeanParam StandingFilter filter) {
    return queries.list(filter.query(Set.of(Subject.Kind.CROP), false));
  }

  @GET
  @RequiresPermission(Permission.READ_CROPS)
  @Path("{id}")
  @Operation(
      operationId = "getCrop",
      summary = "One crop: its standing and every gate",
      description =
          "Each gate with its value, limit, margin and source and the facts that it rests on, what"
              + " is taken over from ancestors, and the cautions that apply.")
  @APIResponse(responseCode = "200", description = "The standing")
  public StandingView get(@Parameter(example = "C-24-012") @PathParam("id") String id) {
    return queries.view(Subject.crop(id));
  }

  @GET
  @RequiresPermission(Permission.READ_CROPS)
  @Path("{id}/neighbours")
  @Operation(
      operationId = "neighboursOfCrop",
      summary = "Foreign pollen around this crop, with distances and nearest points for a map")
  @APIResponse(responseCode = "200", description = "The sources within reach, nearest first")
  public NeighboursView neighbours(@PathParam("id") String id) {
    return queries.neighbours(Subject.crop(id));
  }

  @Override
  Subject subject(String id) {
    return Subject.crop(id);
  }
}
