package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.http.SeasonParameters;
import org.kornspur.api.query.season.MultipliersView;
import org.kornspur.api.query.season.SeasonComparison;
import org.kornspur.api.query.season.SeasonsView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Seasons, and multipliers, side by side. */
@Path(Addresses.ROOT + "/seasons")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Seasons", description = "What seasons came to, side by side")
public class SeasonsResource {
  @Inject SeasonComparison comparison;

  @GET
  @RequiresPermission(Permission.READ_SEASONS)
  @Operation(
      operationId = "listSeasons",
      summary = "Seasons of a hybrid, a line, a multiplier, or all",
      description =
          "Crops and lots of each year of harvest: how many are fit, what the others are not fit"
              + " for, kilograms, and forecasts of hybridity beside what was found. Of what the"
              + " caller sees.")
  @APIResponse(responseCode = "200", description = "The seasons, the latest first")
  public SeasonsView seasons(@BeanParam SeasonParameters narrowed) {
    return comparison.seasons(narrowed.filter(new Parameters()));
  }

  @GET
  @Path("multipliers")
  @RequiresPermission(Permission.READ_SEASONS)
  @Operation(
      operationId = "compareMultipliers",
      summary = "Multipliers side by side in one season",
      description = "Of what the caller sees: a multiplier sees its own line alone.")
  @APIResponse(responseCode = "200", description = "The multipliers, by id")
  public MultipliersView multipliers(
      @Parameter(
              description = "Year of harvest; the latest where left out",
              schema = @Schema(type = SchemaType.INTEGER))
          @QueryParam("cropYear")
          String cropYear,
      @Parameter(description = "Id of the hybrid") @QueryParam("hybrid") String hybrid) {
    Parameters parameters = new Parameters();
    Optional<Integer> year = parameters.whole("cropYear", cropYear, 1990, 2100);
    Optional<String> hybridId = parameters.id("hybrid", hybrid);
    parameters.check();
    return comparison.multipliers(year, hybridId);
  }
}
