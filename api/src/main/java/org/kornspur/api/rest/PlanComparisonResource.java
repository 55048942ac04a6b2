package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.query.plan.PlanComparison;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Plans side by side; none of them changes a standing. */
@Path(Addresses.ROOT + "/plan-comparison")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Plans")
public class PlanComparisonResource {
  @Inject PlanService plans;

  @GET
  @RequiresPermission(Permission.READ_PLANS)
  @HeavyDocument
  @Operation(
      operationId = "comparePlans",
      summary = "Plans side by side, each calculated from the standings of the moment")
  @APIResponse(responseCode = "200", description = "The plans")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public PlanComparison compare(
      @Parameter(
              description = "Two to six plans: an id, or id and version as in plan-1@3",
              required = true)
          @QueryParam("plan")
          List<String> named) {
    return plans.compare(named);
  }
}
