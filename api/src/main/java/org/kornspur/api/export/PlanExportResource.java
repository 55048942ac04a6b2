package org.kornspur.api.export;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Response;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.spreadsheet.PlanTable;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.query.plan.PlanView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Plans of the years ahead as spreadsheets. */
@Path(Addresses.ROOT + "/plans")
@Tag(name = "Plans")
public class PlanExportResource {
  @Inject PlanService plans;
  @Inject QueryService queries;
  @Inject RequestWords words;

  @GET
  @Path("{id}/seasons.csv")
  @Produces(TableDownload.CSV)
  @RequiresPermission(Permission.READ_PLANS)
  @Operation(
      operationId = "planSeasonsCsv",
      summary = "Each seed in each season of a plan: needed, available, short, as CSV (RFC 4180)")
  @APIResponse(responseCode = "200", description = "One row a seed and harvest")
  public Response csv(@PathParam("id") String id) {
    return TableDownload.csv("seasons", table(id));
  }

  @GET
  @Path("{id}/seasons.xlsx")
  @Produces(TableDownload.XLSX)
  @RequiresPermission(Permission.READ_PLANS)
  @Operation(
      operationId = "planSeasonsXlsx",
      summary = "The same as a spreadsheet that can be sorted and filtered")
  @APIResponse(responseCode = "200", description = "Office Open XML workbook")
  public Response xlsx(@PathParam("id") String id) {
    return TableDownload.xlsx("seasons", table(id));
  }

  private SpreadsheetTable table(String id) {
    return PlanTable.of(PlanView.of(plans.calculate(id), words.words(), queries.asOf()));
  }
}
