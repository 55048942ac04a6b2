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
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLine;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Lots of seed. */
@Path(Addresses.ROOT + "/lots")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Lots")
public class LotsResource extends HistoryResource {
  @GET
  @RequiresPermission(Permission.READ_LOTS)
  @Operation(operationId = "listLots", summary = "List lots, worst first")
  @APIResponse(responseCode = "200", description = "One page")
  @APIResponse(responseCode = "400", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public PageView<StandingLine> list(@BeanParam StandingFilter filter) {
    return queries.list(filter.query(Set.of(Subject.Kind.LOT), false));
  }

  @GET
  @RequiresPermission(Permission.READ_LOTS)
  @Path("{id}")
  @Operation(
      operationId = "getLot",
      summary = "One lot: its standing and every gate",
      description =
          "Each gate with its value, limit, margin and source and the facts that it rests on, what"
              + " is taken over from ancestors, and the cautions that apply.")
  @APIResponse(responseCode = "200", description = "The standing")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public StandingView get(@Parameter(example = "F1-24-007") @PathParam("id") String id) {
    return queries.view(Subject.lot(id));
  }

  @Override
  Subject subject(String id) {
    return Subject.lot(id);
  }
}
