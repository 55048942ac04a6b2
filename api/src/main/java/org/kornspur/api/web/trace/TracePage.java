package org.kornspur.api.web.trace;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.recall.CountedStock;
import org.kornspur.api.query.recall.LotFinder;
import org.kornspur.api.query.recall.RecallDrills;
import org.kornspur.api.query.recall.RecallView;
import org.kornspur.api.query.recall.TraceWords;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.SubjectPageAssembler;
import org.kornspur.api.web.SubjectPageView;
import org.kornspur.ingest.contract.Subject;

/** From what stands on a bag to the whole way back and forth, and to a recall drill. */
@Path("/trace")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class TracePage {
  private static final int MOST_MOVES = 500;

  /** An id has 64 characters at most; the kind may stand before it. */
  private static final int LONGEST = 128;

  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject LotFinder finder;
  @Inject RecallDrills drills;
  @Inject SubjectPageAssembler pageContents;
  @Inject IgnoredParameters ignored;

  /**
   * What was found.
   *
   * @param text what was asked for; empty where nothing was
   * @param found all that it may mean
   */
  public record Lookup(String text, List<LotFinder.Found> found) {}

  /**
   * A drill, or no more of it than the way back and forth of a crop or lot.
   *
   * @param most movements that are shown each way
   * @param api address of the crop or lot in the interface
   * @param stock what was counted, as a query of an address; empty where nothing was
   */
  public record Drill(Subject subject, RecallView result, int most, String api, String stock) {

    /** Whether it is a lot's, which the interface has as a file. */
    public boolean isLot() {
      return subject.kind() == Subject.Kind.LOT;
    }
  }

  @CheckedTemplate(basePath = "web/trace")
  static class Templates {
    static native TemplateInstance lookup(PageFrame page, Lookup lookup, TraceWords words);

    static native TemplateInstance way(
        PageFrame page, Lookup lookup, Drill way, SubjectPageView content, TraceWords words);

    static native TemplateInstance drill(PageFrame page, Drill drill, TraceWords words);
  }

  /**
   * @param text a label number, an id of a lot, crop or fact, or {@code lot:} or {@code crop:} and
   *     an id
   */
  @GET
  @RequiresPermission(Permission.READ_TRACE)
  public String lookUp(@DefaultValue("") @QueryParam("q") String text) {
    Parameters parameters = ignored.parameters();
    String asked = parameters.text("q", text.strip(), LONGEST).orElse("");
    parameters.check();
    if (asked.isEmpty()) {
      return pages.render(
          Templates.lookup(pages.around(NavigationItem.TRACE), new Lookup("", List.of()), words()));
    }
    Lookup lookup = new Lookup(asked, finder.find(asked));
    List<Subject> subjects =
        lookup.found().stream().map(LotFinder.Found::subject).distinct().toList();
    return subjects.size() == 1
        ? way(lookup, subjects.get(0))
        : pages.render(
            Templates.lookup(pages.around(NavigationItem.TRACE, queries.asOf()), lookup, words()));
  }

  private String way(Lookup lookup, Subject subject) {
    RecallView result = drills.drill(subject, Map.of());
    return pages.render(
        Templates.way(
            pages.around(NavigationItem.TRACE, result.asOf()),
            lookup,
            new Drill(subject, result, MOST_MOVES, Addresses.of(subject), ""),
            pageContents.of(subject, queries.view(subject)),
            words()));
  }

  /**
   * @param subject {@code lot:} or {@code crop:} and an id
   * @param lots lots that were counted
   * @param masses kilograms of each; blank where it was not counted
   */
  @GET
  @Path("drill")
  @RequiresPermission(Permission.READ_TRACE)
  public String drill(
      @DefaultValue("") @QueryParam("subject") String subject,
      @QueryParam("lot") List<String> lots,
      @QueryParam("kg") List<String> masses) {
    Subject start = seed(subject);
    Map<String, Double> counted = CountedStock.of(lots, masses, pages.words().language());
    RecallView result = drills.drill(start, counted);
    Drill drill = new Drill(start, result, MOST_MOVES, Addresses.of(start), stock(counted));
    return pages.render(
        Templates.drill(pages.around(NavigationItem.TRACE, result.asOf()), drill, words()));
  }

  private static Subject seed(String text) {
    return LotFinder.named(text)
        .orElseThrow(() -> ApiProblem.notFound(new AddressDetail.NoStartOfDrill()));
  }

  private static String stock(Map<String, Double> counted) {
    return counted.entrySet().stream()
        .map(lot -> String.format(Locale.ROOT, "%s:%.3f", lot.getKey(), lot.getValue()))
        .map(lot -> "stock=" + URLEncoder.encode(lot, StandardCharsets.UTF_8))
        .collect(Collectors.joining("&", counted.isEmpty() ? "" : "?", ""));
  }

  private TraceWords words() {
    return TraceWords.of(pages.words());
  }
}
