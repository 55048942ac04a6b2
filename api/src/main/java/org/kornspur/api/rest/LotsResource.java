package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.Attachment;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.query.recall.CountedStock;
import org.kornspur.api.query.recall.RecallCsv;
import org.kornspur.api.query.recall.RecallDrills;
import org.kornspur.api.query.recall.RecallView;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLineView;
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
  private static final String CSV = "text/csv";

  @Inject RecallDrills drills;

  @GET
  @RequiresPermission(Permission.READ_LOTS)
  @Operation(operationId = "listLots", summary = "List lots, worst first")
  @APIResponse(responseCode = "200", description = "One page")
  public PageView<StandingLineView> list(@BeanParam StandingFilter filter) {
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
  public StandingView get(@Parameter(example = "F1-24-007") @PathParam("id") String id) {
    return queries.view(Subject.lot(id));
  }

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
  public RecallView drill(
      @PathParam("id") String id,
      @Parameter(
              description =
                  "What was counted in store, lot:kilograms, as often as needed; what nobody"
                      + " counted is what the books leave",
              example = "[\"L24-01:1250\"]")
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
  public Response sheet(@PathParam("id") String id, @QueryParam("stock") List<String> stock) {
    RecallView drill = drills.drill(Subject.lot(id), CountedStock.of(stock));
    return Attachment.of("recall-drill.csv", RecallCsv.write(drill), CSV + ";charset=UTF-8");
  }

  @Override
  Subject subject(String id) {
    return Subject.lot(id);
  }
}
