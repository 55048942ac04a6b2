package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import java.util.stream.Stream;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.RulebookView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;

/** The rulebooks that crops and lots are judged by. */
@Path(Addresses.ROOT + "/rulebooks")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Rulebooks")
public class RulebooksResource {
  @Inject RulesInForce rules;
  @Inject RequestWords words;

  @GET
  @RequiresPermission(Permission.READ_RULEBOOKS)
  @Operation(operationId = "listRulebooks", summary = "Every rulebook, and the common practice")
  public List<RulebookView.Summary> list() {
    return books().map(book -> RulebookView.Summary.of(book, words.words())).toList();
  }

  @GET
  @RequiresPermission(Permission.READ_RULEBOOKS)
  @Path("{id}")
  @Operation(
      operationId = "getRulebook",
      summary = "Every limit of a rulebook, with its source",
      description = "verified is false where the value could not be read in the text itself.")
  @APIResponse(responseCode = "200", description = "The rulebook")
  public RulebookView get(@Parameter(example = "EU") @PathParam("id") String id) {
    return books()
        .filter(book -> book.id().equals(id))
        .findFirst()
        .map(book -> RulebookView.of(book, words.words()))
        .orElseThrow(
            () ->
                ApiProblem.notFound(
                    new RecordDetail.NoRulebook(
                        Given.text(id, false), books().map(Rulebook::id).toList())));
  }

  private Stream<Rulebook> books() {
    Rulebooks rulebooks = rules.rulebooks();
    return Stream.concat(rulebooks.all().stream(), rulebooks.practice().stream());
  }
}
