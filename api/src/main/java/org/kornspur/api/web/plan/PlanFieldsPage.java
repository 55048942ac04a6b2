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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.plan.PlanRequest;
import org.kornspur.api.command.plan.PlanWriter;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.plan.CalculatedPlan;
import org.kornspur.api.query.plan.FieldsView;
import org.kornspur.api.query.plan.PlanFieldService;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.processors.standards.Rulebook;

/** The fields of a plan, one harvest at a time. It works without a script. */
@Path("/plan/{id}/fields")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class PlanFieldsPage {
  @Inject PageFrames pages;
  @Inject PlanService plans;
  @Inject PlanFieldService fields;
  @Inject PlanWriter writer;
  @Inject QueryService queries;
  @Inject RulesInForce rules;
  @Inject IgnoredParameters ignored;
  @Inject CurrentCaller caller;

  @CheckedTemplate(basePath = "web/plan")
  static class Templates {
    static native TemplateInstance fields(PageFrame page, PlanFieldsView sheet);
  }

  /**
   * @param year of harvest; the next one where it is left out
   */
  @GET
  @RequiresPermission(Permission.READ_PLANS)
  @HeavyDocument
  public String show(@PathParam("id") String id, @QueryParam("year") String year) {
    CalculatedPlan plan = plans.calculate(id);
    return page(plan, year(plan, year), List.of());
  }

  @POST
  @RequiresPermission(Permission.MAKE_PLANS)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response save(@PathParam("id") String id, byte[] body) {
    FormFields form = FormFields.of(body);
    CalculatedPlan before = plans.calculate(id);
    int year = year(before, form.first("year").orElse(null));
    try {
      PlanRequest request =
          new PlanRequest(
              before.version().getName(),
              form.first("reason").orElse(""),
              form.first("basedOnVersion").flatMap(PlanPage::whole).orElse(null),
              FieldsForm.read(form, before.question(), year, pages.words().language()));
      writer.change(caller.get(), id, request);
      return Response.seeOther(URI.create("/plan/" + Addresses.part(id) + "/fields?year=" + year))
          .build();
    } catch (ApiProblem refused) {
      return Response.status(refused.document().status())
          .entity(page(before, year, pages.sentences(refused)))
          .build();
    }
  }

  private int year(CalculatedPlan plan, String given) {
    Parameters parameters = ignored.parameters();
    int first = plan.question().firstYear() + 1;
    Optional<Integer> year = parameters.whole("year", given, 1990, 2100);
    parameters.check();
    return year.orElse(first);
  }

  private String page(CalculatedPlan plan, int year, List<String> refusals) {
    PlanFieldService.FieldsOfYear found = fields.of(plan, year);
    FieldsView view = FieldsView.of(plan, found, pages.words().words(), queries.asOf());
    return pages.render(
        Templates.fields(
            pages.around(NavigationItem.PLAN, view.asOf()),
            PlanFieldsView.of(
                plan,
                found,
                view,
                rules.rulebooks().all().stream().map(Rulebook::id).toList(),
                pages.words().form(),
                caller.get().may(Permission.MAKE_PLANS),
                refusals)));
  }
}
