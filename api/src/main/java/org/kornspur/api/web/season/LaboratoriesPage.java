package org.kornspur.api.web.season;

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
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.season.ControlChartView;
import org.kornspur.api.query.season.LaboratoryCharts;
import org.kornspur.api.query.season.LaboratoryView;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/** Laboratories, and the control chart of the germination tests of each. */
@Path("/laboratories")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class LaboratoriesPage {
  @Inject PageFrames pages;
  @Inject LaboratoryCharts charts;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject CurrentCaller caller;

  /**
   * A chart with the tests that are drawn, the first first.
   *
   * @param mayReadLots whether the lots have pages for the reader
   */
  public record Drawn(
      ControlChartView.Chart chart,
      ControlChart drawing,
      List<ControlChartView.Test> tests,
      boolean mayReadLots) {

    public ControlChartView.Test lastTest() {
      return tests.get(tests.size() - 1);
    }
  }

  @CheckedTemplate(basePath = "web/season")
  static class Templates {
    static native TemplateInstance laboratories(PageFrame page, List<LaboratoryView> laboratories);

    static native TemplateInstance chart(
        PageFrame page, ControlChartView view, Optional<Drawn> drawn);
  }

  @GET
  @RequiresPermission(Permission.READ_CONTROL_CHARTS)
  public String list() {
    return pages.render(
        Templates.laboratories(pages.around(here(), queries.asOf()), charts.laboratories()));
  }

  @GET
  @Path("{id}")
  @RequiresPermission(Permission.READ_CONTROL_CHARTS)
  public String chart(@PathParam("id") String id, @QueryParam("year") String year) {
    Parameters parameters = ignored.parameters();
    Optional<Integer> asked = parameters.whole("year", year, 1990, 2100);
    parameters.check();
    ControlChartView view = charts.chart(id, asked);
    return pages.render(
        Templates.chart(
            pages.around(here(), view.asOf()),
            view,
            Optional.ofNullable(view.chart()).map(this::drawn)));
  }

  private Drawn drawn(ControlChartView.Chart chart) {
    return new Drawn(
        chart,
        ControlChart.of(chart.tests()),
        ControlChart.last(chart.tests()),
        caller.get().may(Permission.READ_LOTS));
  }

  private NavigationItem here() {
    return caller.get().may(Permission.READ_SEASONS)
        ? NavigationItem.SEASONS
        : NavigationItem.LABORATORY;
  }
}
