package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.net.URI;
import java.util.List;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.search.FoundView;
import org.kornspur.api.query.search.SearchService;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;

/** Crops and lots by any part of what is known of them. A single one is shown at once. */
@Path("/search")
public class SearchPage {
  private static final int A_PAGE = 50;

  @Inject PageFrames pages;
  @Inject SearchService search;
  @Inject IgnoredParameters ignored;

  /**
   * A crop or lot that was found.
   *
   * @param by by what it was found, in words
   */
  public record Line(StandingsPage.Line found, String by) {}

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance search(
        PageFrame page, String text, boolean tooShort, List<Line> lines, Paging paging);
  }

  /**
   * @param given part of an id, seed, field, sample, label, document, enterprise or person
   */
  @GET
  @RequiresPermission(Permission.SEARCH)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  public Response search(
      @DefaultValue("") @QueryParam("q") String given,
      @DefaultValue("1") @QueryParam("page") String page,
      @Context UriInfo uri) {
    Parameters parameters = ignored.parameters();
    String text = parameters.text("q", given.strip(), SearchService.LONGEST).orElse("");
    int number = parameters.page(page);
    parameters.check();
    if (text.length() < SearchService.SHORTEST) {
      return shown(
          Templates.search(
              pages.around(NavigationItem.ELSEWHERE), text, true, List.of(), Paging.none()));
    }
    PageView<FoundView> found = search.page(text, number, A_PAGE);
    if (found.total() == 1 && number == 1) {
      Subject only = Subject.parse(found.items().get(0).standing().subject());
      return Response.seeOther(URI.create(Addresses.pageOf(only))).build();
    }
    return shown(
        Templates.search(
            pages.around(NavigationItem.ELSEWHERE, found.asOf()),
            text,
            false,
            found.items().stream().map(this::line).toList(),
            Paging.of(found, uri)));
  }

  private Response shown(TemplateInstance page) {
    return Response.ok(pages.render(page)).build();
  }

  private Line line(FoundView found) {
    ReaderWords words = pages.words().words();
    PageTexts texts = pages.words().texts("search");
    return new Line(
        StandingsPage.Line.of(found.standing(), words, pages.words().terms()),
        texts.of("by", found.by()) + " " + found.text());
  }
}
