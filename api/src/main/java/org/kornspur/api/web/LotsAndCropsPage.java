package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLine;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;

/** Lists of lots and of crops, worst first, to look things up in. */
@Path("/")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class LotsAndCropsPage {
  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject VisibleData data;

  /** A crop or lot as the list shows it. */
  public record Line(StandingLine standing, String href, String holder) {
    static Line of(StandingLine standing, ReaderWords words) {
      return new Line(
          standing,
          Addresses.pageOf(Subject.parse(standing.subject())),
          Optional.ofNullable(standing.holder())
              .map(Subject::enterprise)
              .map(words::named)
              .orElse(""));
    }
  }

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance standings(
        PageFrame page,
        String title,
        String action,
        List<Line> lines,
        Filters filters,
        Paging paging);
  }

  @GET
  @Path("lots")
  @RequiresPermission(Permission.READ_LOTS)
  @Operation(hidden = true)
  public String lots(@BeanParam StandingFilter filter, @Context UriInfo uri) {
    return list(NavigationItem.LOTS, Subject.Kind.LOT, filter, uri);
  }

  @GET
  @Path("crops")
  @RequiresPermission(Permission.READ_CROPS)
  @Operation(hidden = true)
  public String crops(@BeanParam StandingFilter filter, @Context UriInfo uri) {
    return list(NavigationItem.CROPS, Subject.Kind.CROP, filter, uri);
  }

  private String list(NavigationItem item, Subject.Kind kind, StandingFilter filter, UriInfo uri) {
    PageView<StandingLine> found =
        queries.list(filter.query(Set.of(kind), false, ignored.parameters()));
    ReaderWords words = pages.words().words();
    return pages.render(
        Templates.standings(
            pages.around(item, found.asOf()),
            pages.words().texts("frame").of("place", item),
            item.href(),
            found.items().stream().map(line -> Line.of(line, words)).toList(),
            Filters.of(uri, data.values(), pages.words().terms()),
            Paging.of(found, uri)));
  }
}
