package org.kornspur.api.web.season;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.season.MultipliersView;
import org.kornspur.api.query.season.SeasonComparison;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.Filters;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/** The multipliers of one season side by side. */
@Path("/seasons/multipliers")
public class MultipliersPage {
  @Inject PageFrames pages;
  @Inject VisibleData data;
  @Inject SeasonComparison comparison;
  @Inject IgnoredParameters ignored;

  @CheckedTemplate(basePath = "web/season")
  static class Templates {
    static native TemplateInstance multipliers(
        PageFrame page,
        MultipliersView view,
        SeasonTableView lots,
        SeasonTableView crops,
        Filters filters);
  }

  @GET
  @RequiresPermission(Permission.READ_SEASONS)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  public String multipliers(
      @QueryParam("cropYear") String cropYear,
      @QueryParam("hybrid") String hybrid,
      @Context UriInfo uri) {
    Parameters parameters = ignored.parameters();
    Optional<Integer> year = parameters.whole("cropYear", cropYear, 1990, 2100);
    Optional<String> hybridId = parameters.id("hybrid", hybrid);
    parameters.check();
    MultipliersView view = comparison.multipliers(year, hybridId);
    return pages.render(
        Templates.multipliers(
            pages.around(NavigationItem.SEASONS, view.asOf()),
            view,
            table(view.lots(), true),
            table(view.crops(), false),
            Filters.of(uri, data.values(), pages.words().terms())));
  }

  private static SeasonTableView table(
      List<MultipliersView.Multiplier> multipliers, boolean masses) {
    return new SeasonTableView(
        multipliers.stream()
            .map(
                one ->
                    new SeasonTableView.Row(
                        one.name() == null ? one.holder() : one.name(),
                        "/seasons?holder=" + Addresses.part(one.holder()),
                        one.season()))
            .toList(),
        masses,
        false,
        false);
  }
}
