package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.command.fact.SubmissionAnswers;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.BatchView;
import org.kornspur.api.query.view.FactTypeView;
import org.kornspur.api.query.view.ReceiptView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.FactType;

/** Where facts come in, and what they look like. */
@Path(Addresses.ROOT)
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Facts")
public class FactsResource {

  /** Facts as JSON, one a line. */
  static final String NDJSON = "application/x-ndjson";

  /** WebDAV's status for an answer whose parts have a status each (RFC 4918, section 13). */
  private static final int MULTI_STATUS = 207;

  @Inject SubmissionAnswers intake;
  @Inject ProblemLanguage language;
  @Inject RequestWords words;

  @POST
  @RequiresPermission(Permission.POST_FACTS)
  @Path("facts")
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "postFacts",
      summary = "Bring one fact, or many",
      description =
          "One object, a list of objects, or one object a line as application/x-ndjson; at most"
              + " 10,000 facts and 10 MB. A fact may be sent again: the same id counts once. What"
              + " is refused is kept in the quarantine with its reasons.")
  @RequestBody(
      content = {
        @Content(
            mediaType = MediaType.APPLICATION_JSON,
            schema = @Schema(ref = "#/components/schemas/Facts")),
        @Content(mediaType = NDJSON, schema = @Schema(implementation = String.class))
      })
  @APIResponse(
      responseCode = "202",
      description = "One fact went in, or had come before",
      content = @Content(schema = @Schema(implementation = ReceiptView.class)))
  @APIResponse(
      responseCode = "200",
      description = "Every fact of the batch went in, or had come before",
      content = @Content(schema = @Schema(implementation = BatchView.class)))
  @APIResponse(
      responseCode = "207",
      description = "Some facts of the batch are refused or unsent; the others went in",
      content = @Content(schema = @Schema(implementation = BatchView.class)))
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "413", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "422", ref = "#/components/responses/Problem")
  public Response post(byte[] utf8) {
    String requestId = UUID.randomUUID().toString();
    return intake
        .list(utf8, requestId)
        .map(FactsResource::answer)
        .orElseGet(() -> Response.accepted(intake.json(utf8, requestId)).build());
  }

  @POST
  @RequiresPermission(Permission.POST_FACTS)
  @Path("facts")
  @Consumes(NDJSON)
  @Operation(hidden = true)
  public Response postLines(byte[] body) {
    return answer(intake.lines(body, UUID.randomUUID().toString()));
  }

  @GET
  @RequiresPermission(Permission.READ_INTERFACE)
  @Path("fact-types")
  @Operation(
      operationId = "listFactTypes",
      summary = "Every type of fact: fields, units, limits, remedies",
      description = "Read from the contract itself, so that a form can be made of it.")
  public List<FactTypeView> types() {
    return Arrays.stream(FactType.values())
        .filter(type -> !type.isAct())
        .map(type -> FactTypeView.of(type, words.words(), language.words()))
        .toList();
  }

  private static Response answer(BatchView batch) {
    boolean allIn = batch.refused() + batch.unsent() == 0;
    return Response.status(allIn ? 200 : MULTI_STATUS).entity(batch).build();
  }
}
