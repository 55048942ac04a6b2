package org.kornspur.api.resource;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.access.Action;
import org.kornspur.api.access.Needs;
import org.kornspur.api.view.Addresses;
import org.kornspur.api.view.DossierView;
import org.kornspur.api.view.NeighboursView;
import org.kornspur.api.view.OwedView;
import org.kornspur.api.view.PageView;
import org.kornspur.api.view.StandingLine;
import org.kornspur.api.view.StandingView;
import org.kornspur.api.view.TraceView;
import org.kornspur.ingest.contract.Subject;

/** Seed crops, each on one field in one crop year. */
@Path(Addresses.ROOT + "/crops")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Crops")
public class CropsResource {
  private final Answers answers;

  @Inject
  public CropsResource(Answers answers) {
    this.answers = answers;
  }

  @GET
  @Needs(Action.READ_CROPS)
  @Operation(operationId = "listCrops", summary = "List crops, worst first")
  @APIResponse(responseCode = "200", description = "One page")
  @APIResponse(responseCode = "400", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public PageView<StandingLine> list(@BeanParam StandingFilter filter) {
    return answers.list(filter.query(Set.of(Subject.Kind.CROP), false));
  }

  @GET
  @Needs(Action.READ_CROPS)
  @Path("{id}")
  @Operation(
      operationId = "getCrop",
      summary = "One crop: its standing and every gate",
      description =
          "Each gate with its value, limit, margin and source and the facts that it rests on, what"
              + " is taken over from ancestors, and the cautions that apply.")
  @APIResponse(responseCode = "200", description = "The standing")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public StandingView get(@Parameter(example = "C-24-012") @PathParam("id") String id) {
    return answers.view(Subject.crop(id));
  }

  @GET
  @Needs(Action.READ_FACTS)
  @Path("{id}/facts")
  @Operation(
      operationId = "factsCrop",
      summary = "Every fact that names this crop, corrections shown and not hidden",
      description =
          "A fact that another took the place of stands there with both values, who corrected it,"
              + " when and why. Nothing is ever changed or deleted.")
  @APIResponse(responseCode = "200", description = "The facts, by the time when they happened")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public DossierView facts(@PathParam("id") String id, @BeanParam FactTimes times) {
    return answers.dossier(Subject.crop(id), times.range());
  }

  @GET
  @Needs(Action.READ_LOG)
  @Path("{id}/proof")
  @Operation(
      operationId = "proofCrop",
      summary = "Every fact of this crop, with what proves it without any connection",
      description =
          "Each fact as it lies in the log, the piece of the hash chain around it between two signed"
              + " checkpoints, and a signed list of what the dossier held. Verify the saved file"
              + " with: java -jar ingest.jar verify FILE.json --trust FOLDER")
  @APIResponse(
      responseCode = "200",
      description = "The proof; facts not yet signed are said to be so")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public JsonNode proof(@PathParam("id") String id) {
    return answers.proof(Subject.crop(id));
  }

  @GET
  @Needs(Action.READ_CROPS)
  @Path("{id}/neighbours")
  @Operation(
      operationId = "neighboursOfCrop",
      summary = "Foreign pollen around this crop, with distances and nearest points for a map")
  @APIResponse(responseCode = "200", description = "The sources within reach, nearest first")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public NeighboursView neighbours(@PathParam("id") String id) {
    return answers.neighbours(Subject.crop(id));
  }

  @GET
  @Needs(Action.READ_TRACE)
  @Path("{id}/trace")
  @Operation(
      operationId = "traceCrop",
      summary = "Back to all that this crop came from, or forward to all that it went into")
  @APIResponse(responseCode = "200", description = "The walk; it says whether it is complete")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public TraceView trace(
      @PathParam("id") String id,
      @Parameter(schema = @Schema(enumeration = {"back", "forward"}))
          @DefaultValue("back")
          @QueryParam("direction")
          String direction,
      @Parameter(
              description = "Most subjects to visit, up to 100,000",
              schema = @Schema(type = SchemaType.INTEGER))
          @DefaultValue("5000")
          @QueryParam("most")
          String most) {
    return answers.trace(TraceRequest.read(Subject.crop(id), direction, most));
  }

  @GET
  @Needs(Action.READ_OWED)
  @Path("{id}/owed")
  @Operation(operationId = "owedCrop", summary = "What is still to be brought for this crop")
  @APIResponse(responseCode = "200", description = "Own evidence first, then that of ancestors")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public OwedView owed(@PathParam("id") String id) {
    return answers.owed(Subject.crop(id));
  }
}
