package org.kornspur.api.web.plan;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.plan.CalculatedPlan;
import org.kornspur.api.query.plan.PlanComparison;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.query.plan.SeedFlow;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/** Plans side by side, and how the seed of one goes through the years. */
@Path("/plan")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class PlanComparisonPage {
  @Inject PageFrames pages;
  @Inject PlanService plans;
  @Inject QueryService queries;

  /**
   * What the page of the flow shows.
   *
   * @param hybrids of the plan
   * @param flow empty for a plan without demand
   */
  public record FlowView(
      String planId,
      String name,
      List<String> hybrids,
      Optional<SeedFlow> flow,
      Optional<FlowDrawing> drawing) {}

  @CheckedTemplate(basePath = "web/plan")
  static class Templates {
    static native TemplateInstance comparison(
        PageFrame page, PlanComparison comparison, String query, List<String> refusals);

    static native TemplateInstance flow(PageFrame page, FlowView sheet);
  }

  @GET
  @Path("comparison")
  @RequiresPermission(Permission.READ_PLANS)
  @HeavyDocument
  public String comparison(@QueryParam("plan") List<String> named) {
    try {
      return comparison(plans.compare(named), named, List.of());
    } catch (ApiProblem refused) {
      return comparison(new PlanComparison(List.of(), List.of()), named, pages.sentences(refused));
    }
  }

  private String comparison(PlanComparison found, List<String> named, List<String> refusals) {
    String query =
        named.stream().map(one -> "plan=" + Addresses.part(one)).collect(Collectors.joining("&"));
    return pages.render(
        Templates.comparison(
            pages.around(NavigationItem.PLAN, queries.asOf()), found, query, refusals));
  }

  @GET
  @Path("{id}/flow")
  @RequiresPermission(Permission.READ_PLANS)
  public String flow(@PathParam("id") String id, @QueryParam("hybrid") String hybrid) {
    CalculatedPlan plan = plans.calculate(id);
    Optional<SeedFlow> flow =
        plans.flow(plan, Optional.ofNullable(hybrid).filter(one -> !one.isBlank()));
    return pages.render(
        Templates.flow(
            pages.around(NavigationItem.PLAN, queries.asOf()),
            new FlowView(
                id,
                plan.version().getName(),
                plan.question().demands().stream().map(one -> one.hybridId()).distinct().toList(),
                flow,
                flow.map(FlowDrawing::of))));
  }
}
