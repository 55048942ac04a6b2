package org.kornspur.api.rest;

import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.command.plan.PlanRequest;
import org.kornspur.api.command.plan.PlanWriter;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PlanDetail;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.plan.CalculatedPlan;
import org.kornspur.api.query.plan.FieldsView;
import org.kornspur.api.query.plan.PlanFieldService;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.query.plan.PlanView;
import org.kornspur.api.query.plan.SeedFlow;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.problem.Given;

/** Plans of the years ahead; none of them changes a standing. */
@Path(Addresses.ROOT + "/plans")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Plans", description = "Plans, not gates: no crop or lot is fit or not fit by one")
public class PlansResource {
  @Inject PlanService plans;
  @Inject PlanFieldService fields;
  @Inject PlanWriter writer;
  @Inject QueryService queries;
  @Inject RequestWords words;
  @Inject CurrentCaller caller;
  @Inject ObjectMapper json;

  @GET
  @RequiresPermission(Permission.READ_PLANS)
  @Operation(operationId = "listPlans", summary = "The latest version of each plan")
  @APIResponse(responseCode = "200", description = "The plans, without what follows from them")
  public List<PlanView.Head> list() {
    return plans.latest().stream().map(PlanView.Head::of).toList();
  }

  @GET
  @RequiresPermission(Permission.READ_PLANS)
  @Path("{id}")
  @Operation(
      operationId = "getPlan",
      summary = "The latest version of a plan, calculated from the standings of the moment",
      description =
          "What is met of each demand and which limit keeps the rest from being met, what is sown"
              + " from which lots, and how that differs from the plan as approved.")
  @APIResponse(responseCode = "200", description = "The plan")
  public PlanView get(@PathParam("id") String id) {
    return view(plans.calculate(id));
  }

  @GET
  @RequiresPermission(Permission.READ_PLANS)
  @HeavyDocument
  @Path("{id}/fields/{year}")
  @Operation(
      operationId = "getPlanFields",
      summary = "Which field bears which crop of a plan in one harvest",
      description =
          "What a person decided, with all that speaks against it, and a proposal for the rest, by"
              + " the distances and years without rye that the gates ask for. Decide on fields with"
              + " a new version of the plan.")
  @APIResponse(responseCode = "200", description = "The fields")
  public FieldsView fields(
      @PathParam("id") String id,
      @Parameter(description = "Year of harvest", example = "2027") @PathParam("year") int year) {
    CalculatedPlan plan = plans.calculate(id);
    return FieldsView.of(plan, fields.of(plan, year), words.words(), queries.asOf());
  }

  @GET
  @RequiresPermission(Permission.READ_PLANS)
  @Path("{id}/flow")
  @Operation(
      operationId = "getPlanFlow",
      summary = "How the seed of one hybrid goes through the years of a plan")
  @APIResponse(responseCode = "200", description = "Stocks of each year, and what is sown and kept")
  public SeedFlow flow(
      @PathParam("id") String id,
      @Parameter(description = "Hybrid; the first one of the plan where left out")
          @QueryParam("hybrid")
          String hybrid) {
    CalculatedPlan plan = plans.calculate(id);
    return plans
        .flow(plan, Optional.ofNullable(hybrid).filter(one -> !one.isBlank()))
        .orElseThrow(() -> ApiProblem.notFound(new PlanDetail.NoPlan(Given.text(id, false))));
  }

  @POST
  @RequiresPermission(Permission.MAKE_PLANS)
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(operationId = "createPlan", summary = "Save a new plan, and see what follows from it")
  @RequestBody(content = @Content(schema = @Schema(implementation = PlanRequest.class)))
  @APIResponse(
      responseCode = "201",
      description = "The plan",
      content = @Content(schema = @Schema(implementation = PlanView.class)))
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public Response create(byte[] body) throws IOException {
    PlanView saved =
        view(writer.create(caller.get(), JsonBody.read(json, body, PlanRequest.class)));
    return Response.status(Response.Status.CREATED).entity(saved).build();
  }

  @POST
  @RequiresPermission(Permission.MAKE_PLANS)
  @Path("{id}")
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(operationId = "changePlan", summary = "Save a new version of a plan")
  @RequestBody(content = @Content(schema = @Schema(implementation = PlanRequest.class)))
  @APIResponse(responseCode = "200", description = "The new version")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public PlanView change(@PathParam("id") String id, byte[] body) throws IOException {
    return view(writer.change(caller.get(), id, JsonBody.read(json, body, PlanRequest.class)));
  }

  @POST
  @RequiresPermission(Permission.MAKE_PLANS)
  @Path("{id}/approval")
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "approvePlan",
      summary = "Approve the latest version of a plan, with what it comes to now",
      description = "Later answers show the difference. An approval releases no lot.")
  @RequestBody(
      content = @Content(schema = @Schema(implementation = PlanWriter.ApprovalRequest.class)))
  @APIResponse(responseCode = "200", description = "The plan, approved")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public PlanView approve(@PathParam("id") String id, byte[] body) throws IOException {
    return view(
        writer.approve(
            caller.get(), id, JsonBody.read(json, body, PlanWriter.ApprovalRequest.class)));
  }

  private PlanView view(CalculatedPlan plan) {
    return PlanView.of(plan, words.words(), queries.asOf());
  }
}
