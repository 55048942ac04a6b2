package org.kornspur.api.rest;

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
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.FactTimes;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.view.DossierView;
import org.kornspur.api.query.view.OwedView;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Trace;

/** What is known of a lot or crop beyond its standing: its facts, their proof, its ways. */
@Produces(MediaType.APPLICATION_JSON)
public abstract class HistoryResource {
  @Inject QueryService queries;

  /** What the id in the address names. */
  abstract Subject subject(String id);

  @GET
  @RequiresPermission(Permission.READ_FACTS)
  @Path("{id}/facts")
  @Operation(
      summary = "Every fact that names it, corrections shown and not hidden",
      description =
          "A fact that another took the place of stands there with both values, who corrected it,"
              + " when and why. Nothing is ever changed or deleted.")
  @APIResponse(responseCode = "200", description = "The facts, by the time when they happened")
  public DossierView facts(@PathParam("id") String id, @BeanParam FactTimes times) {
    return queries.dossier(subject(id), times.range());
  }

  @GET
  @RequiresPermission(Permission.READ_LOG)
  @Path("{id}/proof")
  @HeavyDocument
  @Operation(
      summary = "Every fact of it, with what proves it without any connection",
      description =
          "Each fact as it lies in the log, the piece of the hash chain around it between two signed"
              + " checkpoints, and a signed list of what the dossier held. Verify the saved file"
              + " with: java -jar ingest.jar verify FILE.json --trust FOLDER")
  @APIResponse(
      responseCode = "200",
      description = "The proof; facts not yet signed are said to be so",
      content = @Content(schema = @Schema(ref = "#/components/schemas/Proof")))
  public JsonNode proof(@PathParam("id") String id) {
    return queries.proof(subject(id));
  }

  @GET
  @RequiresPermission(Permission.READ_TRACE)
  @Path("{id}/trace")
  @Operation(summary = "Back to all that it came from, or forward to all that it went into")
  @APIResponse(responseCode = "200", description = "The walk; it says whether it is complete")
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
    Parameters parameters = new Parameters();
    Trace.Direction way =
        parameters.one("direction", direction, Trace.Direction.class).orElse(Trace.Direction.BACK);
    int mostSubjects = parameters.whole("most", most, 5_000, 1, 100_000);
    parameters.check();
    return queries.trace(subject(id), way, mostSubjects);
  }

  @GET
  @RequiresPermission(Permission.READ_OWED)
  @Path("{id}/owed")
  @Operation(summary = "What is still to be brought")
  @APIResponse(responseCode = "200", description = "Own evidence first, then that of ancestors")
  public OwedView owed(@PathParam("id") String id) {
    return queries.owed(subject(id));
  }
}
