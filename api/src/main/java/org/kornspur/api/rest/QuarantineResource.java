package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.io.IOException;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.command.fact.QuarantineDecisions;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.http.QuarantineFilter;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.QuarantineLine;
import org.kornspur.api.query.view.QuarantineView;
import org.kornspur.api.query.view.ReceiptView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.text.Addresses;

/** Refused input: to be looked at, mended and replayed, or discarded. */
@Path(Addresses.ROOT + "/quarantine")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Quarantine")
public class QuarantineResource {
  @Inject QuarantineDecisions quarantine;
  @Inject QueryService queries;
  @Inject ProblemLanguage language;

  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_QUARANTINE)
  @Operation(operationId = "listQuarantine", summary = "List refused input, newest first")
  @APIResponse(responseCode = "200", description = "One page")
  public PageView<QuarantineLine> list(@BeanParam QuarantineFilter filter) {
    return PageView.of(
        quarantine.find(filter.query(new Parameters())),
        row -> QuarantineLine.of(row, language.words()),
        queries.asOf());
  }

  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_QUARANTINE)
  @Path("{entryId}")
  @Operation(
      operationId = "getQuarantineEntry",
      summary = "One refused input, with its reasons and the original unchanged")
  @APIResponse(responseCode = "200", description = "The entry")
  public QuarantineView get(@PathParam("entryId") String entryId) {
    return QuarantineView.of(quarantine.entry(entryId), language.words());
  }

  @POST
  @RequiresPermission(Permission.SETTLE_QUARANTINE)
  @Path("{entryId}/replay")
  @Consumes({MediaType.APPLICATION_JSON, MediaType.WILDCARD})
  @Operation(
      operationId = "replayQuarantineEntry",
      summary = "Take it in again: as it is, or mended",
      description =
          "Without a body the original is tried again: it may be good by now, when a schema was"
              + " unknown and is known. With a body the fact in it takes its place. Who decided, when"
              + " and why stays with the entry.")
  @RequestBody(
      description = "The mended fact, as POST /facts takes it",
      content =
          @Content(
              mediaType = MediaType.APPLICATION_JSON,
              schema = @Schema(ref = "#/components/schemas/Fact")))
  @APIResponse(responseCode = "200", description = "It went in")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "422", ref = "#/components/responses/Problem")
  public ReceiptView replay(
      @PathParam("entryId") String entryId,
      @Parameter(description = "Why, in words that an auditor understands; 500 characters at most")
          @QueryParam("reason")
          String reason,
      byte[] mended) {
    Parameters parameters = new Parameters();
    Optional<String> why = parameters.text("reason", reason, QuarantineDecisions.LONGEST_REASON);
    parameters.check();
    return mended.length == 0
        ? quarantine.replay(entryId, why)
        : quarantine.replay(entryId, mended, why);
  }

  @Schema(description = "Why an entry is not wanted")
  public record Discard(
      @Schema(description = "In words that an auditor understands", examples = "Sent by mistake")
          String reason) {}

  @POST
  @RequiresPermission(Permission.SETTLE_QUARANTINE)
  @Path("{entryId}/discard")
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "discardQuarantineEntry",
      summary = "Say that it is not wanted, and why; it stays on record, with who said so and when")
  @RequestBody(content = @Content(schema = @Schema(implementation = Discard.class)))
  @APIResponse(responseCode = "200", description = "The entry as it now stands")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "422", ref = "#/components/responses/Problem")
  public QuarantineView discard(@PathParam("entryId") String entryId, byte[] body)
      throws IOException {
    return QuarantineView.of(quarantine.discard(entryId, body), language.words());
  }
}
