package org.kornspur.api.web.plan;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.net.URI;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.kornspur.api.command.plan.PlanRequest;
import org.kornspur.api.command.plan.PlanWriter;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.plan.CalculatedPlan;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.query.plan.PlanView;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.security.login.MultipartForm;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/**
 * Plans of the years ahead: a demand table in, and what it takes, what is there and what is short
 * out. It works without a script.
 */
@Path("/plan")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class PlanPage {
  /** Harvests after the present one that a new plan has. */
  private static final int YEARS_AHEAD = 3;

  @Inject PageFrames pages;
  @Inject PlanService plans;
  @Inject PlanWriter writer;
  @Inject DemandUpload tables;
  @Inject VisibleData data;
  @Inject QueryService queries;
  @Inject CurrentCaller caller;
  private final Clock clock = Clock.systemUTC();

  @CheckedTemplate(basePath = "web/plan")
  static class Templates {
    static native TemplateInstance plans(
        PageFrame page, List<PlanView.Head> plans, boolean mayChange);

    static native TemplateInstance plan(PageFrame page, PlanPageView sheet);
  }

  @GET
  @RequiresPermission(Permission.READ_PLANS)
  public String list() {
    return pages.render(
        Templates.plans(
            pages.around(NavigationItem.PLAN),
            plans.latest().stream().map(PlanView.Head::of).toList(),
            mayChange()));
  }

  @GET
  @Path("new")
  @RequiresPermission(Permission.MAKE_PLANS)
  public String empty() {
    return show("/plan/new", Optional.empty(), newPlan(), List.of());
  }

  private int firstYear() {
    return data.values().cropYears().stream()
        .findFirst()
        .orElseGet(() -> LocalDate.now(clock).getYear());
  }

  private PlanForm newPlan() {
    int first = firstYear();
    return PlanForm.empty(
        first, first + YEARS_AHEAD, data.values().hybridIds(), pages.words().form());
  }

  @GET
  @Path("{id}")
  @RequiresPermission(Permission.READ_PLANS)
  public String plan(@PathParam("id") String id) {
    return show(plans.calculate(id), UnaryOperator.identity(), List.of());
  }

  @POST
  @Path("new")
  @RequiresPermission(Permission.MAKE_PLANS)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response create(byte[] body) {
    FormFields form = FormFields.of(body);
    try {
      PlanRequest request = PlanFields.read(form, Optional.empty(), pages.words().language());
      return seeOther(writer.create(caller.get(), request).version().getPlanId());
    } catch (ApiProblem refused) {
      return refused(
          refused,
          show(
              "/plan/new", Optional.empty(), newPlan().typedAgain(form), pages.sentences(refused)));
    }
  }

  @POST
  @Path("{id}")
  @RequiresPermission(Permission.MAKE_PLANS)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response change(@PathParam("id") String id, byte[] body) {
    FormFields form = FormFields.of(body);
    CalculatedPlan before = plans.calculate(id);
    try {
      PlanRequest request =
          PlanFields.read(form, Optional.of(before.question()), pages.words().language());
      writer.change(caller.get(), id, request);
      return seeOther(id);
    } catch (ApiProblem refused) {
      return refused(
          refused, show(before, shown -> shown.typedAgain(form), pages.sentences(refused)));
    }
  }

  /** Takes the demand of a new plan from a table. */
  @POST
  @Path("new/demand")
  @RequiresPermission(Permission.MAKE_PLANS)
  @Consumes(MediaType.MULTIPART_FORM_DATA)
  public Response createByTable(@Context HttpHeaders headers, byte[] body) throws IOException {
    MultipartForm form = MultipartForm.of(headers.getMediaType(), body);
    try {
      return seeOther(
          writer
              .create(caller.get(), tables.request(form, Optional.empty(), firstYear()))
              .version()
              .getPlanId());
    } catch (ApiProblem refused) {
      return refused(
          refused, show("/plan/new", Optional.empty(), newPlan(), pages.sentences(refused)));
    }
  }

  /** Takes the demand of a plan from a table, in place of what it had. */
  @POST
  @Path("{id}/demand")
  @RequiresPermission(Permission.MAKE_PLANS)
  @Consumes(MediaType.MULTIPART_FORM_DATA)
  public Response changeByTable(
      @PathParam("id") String id, @Context HttpHeaders headers, byte[] body) throws IOException {
    MultipartForm form = MultipartForm.of(headers.getMediaType(), body);
    CalculatedPlan before = plans.calculate(id);
    try {
      writer.change(caller.get(), id, tables.request(form, Optional.of(before), firstYear()));
      return seeOther(id);
    } catch (ApiProblem refused) {
      return refused(refused, show(before, UnaryOperator.identity(), pages.sentences(refused)));
    }
  }

  @POST
  @Path("{id}/approval")
  @RequiresPermission(Permission.MAKE_PLANS)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response approve(@PathParam("id") String id, byte[] body) {
    FormFields form = FormFields.of(body);
    try {
      writer.approve(
          caller.get(),
          id,
          new PlanWriter.ApprovalRequest(
              form.first("version").flatMap(PlanPage::whole).orElse(null),
              form.first("reason").orElse("")));
      return seeOther(id);
    } catch (ApiProblem refused) {
      return refused(
          refused, show(plans.calculate(id), UnaryOperator.identity(), pages.sentences(refused)));
    }
  }

  /** The number of a version as a form has it; empty where it is none. */
  static Optional<Integer> whole(String text) {
    return text.matches("\\d{1,9}") ? Optional.of(Integer.valueOf(text)) : Optional.empty();
  }

  private static Response seeOther(String planId) {
    return Response.seeOther(URI.create("/plan/" + Addresses.part(planId))).build();
  }

  private static Response refused(ApiProblem refused, String page) {
    return Response.status(refused.document().status()).entity(page).build();
  }

  private String show(
      CalculatedPlan calculated, UnaryOperator<PlanForm> filledIn, List<String> refusals) {
    PlanView view = PlanView.of(calculated, pages.words().words(), queries.asOf());
    PlanDefinition asked = calculated.question();
    return show(
        "/plan/" + Addresses.part(view.head().planId()),
        Optional.of(view),
        filledIn.apply(
            PlanForm.of(
                view.head().version(),
                view.head().name(),
                "",
                asked,
                data.values().hybridIds(),
                pages.words().form())),
        refusals);
  }

  private String show(
      String action, Optional<PlanView> view, PlanForm form, List<String> refusals) {
    PlanPageView sheet = new PlanPageView(action, view, form, mayChange(), refusals);
    return pages.render(
        Templates.plan(
            view.map(plan -> pages.around(NavigationItem.PLAN, plan.asOf()))
                .orElseGet(() -> pages.around(NavigationItem.PLAN)),
            sheet));
  }

  private boolean mayChange() {
    return caller.get().may(Permission.MAKE_PLANS);
  }
}
