package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.search.FoundView;
import org.kornspur.api.query.search.SearchService;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Crops and lots by any part of what is known of them. */
@Path(Addresses.ROOT + "/search")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Lots")
public class SearchResource {
  private static final int MOST_A_PAGE = 1000;

  @Inject SearchService search;

  @GET
  @RequiresPermission(Permission.SEARCH)
  @Operation(
      operationId = "search",
      summary = "Search crops and lots by any part of what is known of them",
      description =
          "Part of an id, hybrid, component, field, sample, plot, label, enterprise, document or"
              + " person, in any case. Each crop or lot is found once, by what is nearest to it.")
  @APIResponse(responseCode = "200", description = "One page")
  public PageView<FoundView> search(
      @Parameter(description = "From 2 to 128 characters", example = "24-007") @QueryParam("q")
          String text,
      @Parameter(
              description = "Number of the page, from 1",
              schema = @Schema(type = SchemaType.INTEGER))
          @DefaultValue("1")
          @QueryParam("page")
          String page,
      @Parameter(
              description = "Entries a page, at most 1000",
              schema = @Schema(type = SchemaType.INTEGER))
          @DefaultValue("50")
          @QueryParam("size")
          String size) {
    Parameters parameters = new Parameters();
    String asked = parameters.text("q", text, SearchService.SHORTEST, SearchService.LONGEST);
    int number = parameters.page(page);
    int entries = parameters.whole("size", size, 50, 1, MOST_A_PAGE);
    parameters.check();
    return search.page(asked, number, entries);
  }
}
