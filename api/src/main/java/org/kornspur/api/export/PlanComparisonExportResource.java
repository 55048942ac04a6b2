package org.kornspur.api.export;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.spreadsheet.PlanComparisonTable;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Plans side by side as spreadsheets. */
@Path(Addresses.ROOT + "/plan-comparison")
@Tag(name = "Plans")
@APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
public class PlanComparisonExportResource {
  @Inject PlanService plans;

  @GET
  @Path("demands.csv")
  @Produces(TableDownload.CSV)
  @RequiresPermission(Permission.READ_PLANS)
  @Operation(
      operationId = "comparePlansCsv",
      summary = "Plans side by side as CSV (RFC 4180): one row a plan and demand")
  @APIResponse(responseCode = "200", description = "One row a plan and demand")
  public Response comparisonCsv(@QueryParam("plan") List<String> named) {
    return TableDownload.csv("plans", PlanComparisonTable.of(plans.compare(named)));
  }

  @GET
  @Path("demands.xlsx")
  @Produces(TableDownload.XLSX)
  @RequiresPermission(Permission.READ_PLANS)
  @Operation(
      operationId = "comparePlansXlsx",
      summary = "The same as a spreadsheet that can be sorted and filtered")
  @APIResponse(responseCode = "200", description = "Office Open XML workbook")
  public Response comparisonXlsx(@QueryParam("plan") List<String> named) {
    return TableDownload.xlsx("plans", PlanComparisonTable.of(plans.compare(named)));
  }
}
