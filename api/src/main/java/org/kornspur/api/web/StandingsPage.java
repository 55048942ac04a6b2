package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.contract.Subject;

/** Lists of lots and of crops, worst first, to look things up in. */
@Path("/")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class StandingsPage {
  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject VisibleData data;

  /**
   * A crop or lot as the list shows it.
   *
   * @param notMet gates that are not met, in the words of the trade
   * @param owed gates that evidence is missing for, in the words of the trade
   */
  public record Line(
      StandingLineView standing, String href, String holder, String notMet, String owed) {
    static Line of(StandingLineView standing, ReaderWords words, DomainTerms terms) {
      return new Line(
          standing,
          Addresses.pageOf(Subject.parse(standing.subject())),
          Optional.ofNullable(standing.holder())
              .map(Subject::enterprise)
              .map(words::named)
              .orElse(""),
          gates(standing.gatesNotMet(), terms),
          gates(standing.gatesOwed(), terms));
    }

    private static String gates(List<String> names, DomainTerms terms) {
      return names.stream().map(terms::gate).collect(Collectors.joining("; "));
    }
  }

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance standings(
        PageFrame page,
        String title,
        String action,
        List<Column> columns,
        List<Filters.Option> choices,
        String asked,
        List<Line> lines,
        Filters filters,
        Paging paging);
  }

  /**
   * The head of a column.
   *
   * @param key name of its {@link ListColumn}; {@code ID} for the first
   * @param label its text
   * @param sorted how the list is sorted by it, as ARIA says it; empty where it is not
   * @param href address that sorts by it; empty where none does
   * @param style classes of its cells
   */
  public record Column(String key, String label, String sorted, String href, String style) {}

  @GET
  @Path("lots")
  @RequiresPermission(Permission.READ_LOTS)
  public String lots(
      @BeanParam StandingFilter filter,
      @QueryParam("columns") List<String> columns,
      @Context UriInfo uri) {
    return list(NavigationItem.LOTS, Subject.Kind.LOT, filter, columns, uri);
  }

  @GET
  @Path("crops")
  @RequiresPermission(Permission.READ_CROPS)
  public String crops(
      @BeanParam StandingFilter filter,
      @QueryParam("columns") List<String> columns,
      @Context UriInfo uri) {
    return list(NavigationItem.CROPS, Subject.Kind.CROP, filter, columns, uri);
  }

  private String list(
      NavigationItem item,
      Subject.Kind kind,
      StandingFilter filter,
      List<String> asked,
      UriInfo uri) {
    Parameters parameters = ignored.parameters();
    Set<ListColumn> shown =
        ListColumn.shown(kind, parameters.any("columns", asked, ListColumn.class));
    StandingQuery query = filter.query(Set.of(kind), false, parameters);
    PageView<StandingLineView> found = queries.list(query);
    ReaderWords words = pages.words().words();
    DomainTerms terms = pages.words().terms();
    return pages.render(
        Templates.standings(
            pages.around(item, found.asOf()),
            pages.words().texts("frame").of("place", item),
            item.href(),
            columns(shown, query.order(), uri),
            ListColumn.of(kind).stream()
                .map(
                    column ->
                        new Filters.Option(column.name(), head(column), shown.contains(column)))
                .toList(),
            Filters.asked(uri),
            found.items().stream().map(line -> Line.of(line, words, terms)).toList(),
            Filters.of(uri, data.values(), terms),
            Paging.of(found, uri)));
  }

  private List<Column> columns(Set<ListColumn> shown, StandingQuery.Order order, UriInfo uri) {
    PageTexts texts = pages.words().texts("standings");
    return Stream.concat(
            Stream.of(
                new Column(
                    "ID",
                    texts.of("idColumn"),
                    sorted(StandingQuery.Order.ID, order),
                    sorting(StandingQuery.Order.ID, uri),
                    "")),
            shown.stream()
                .map(
                    column ->
                        new Column(
                            column.name(),
                            head(column),
                            column.order().map(by -> sorted(by, order)).orElse(""),
                            column.order().map(by -> sorting(by, uri)).orElse(""),
                            column.style())))
        .toList();
  }

  private String head(ListColumn column) {
    return pages.words().texts("standings").of(column.label());
  }

  private static String sorted(StandingQuery.Order by, StandingQuery.Order now) {
    return by != now
        ? ""
        : switch (by) {
          case ID -> "ascending";
          case STORE, CHANGED -> "descending";
          case WORST -> "other";
        };
  }

  private static String sorting(StandingQuery.Order by, UriInfo uri) {
    var address =
        uri.getRequestUriBuilder()
            .replaceQueryParam("sort", by.name().toLowerCase(Locale.ROOT))
            .replaceQueryParam("page")
            .build();
    return address.getRawPath() + "?" + address.getRawQuery();
  }
}
