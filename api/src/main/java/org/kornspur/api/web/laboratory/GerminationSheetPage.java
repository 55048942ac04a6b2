package org.kornspur.api.web.laboratory;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.net.URI;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.ReadsQueryItself;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.Paging;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.processors.verdict.Gate;

/**
 * Germination of many samples on one sheet: a sample a line, four replicates across. All lines are
 * checked together; only what was shown with what it comes to is then recorded.
 */
@Path("/laboratory/germination")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class GerminationSheetPage {
  private static final int MOST_LINES = 50;
  private static final int UNPROCESSABLE = 422;

  private final Clock clock = Clock.systemUTC();

  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject LaboratorySamples samples;
  @Inject GerminationLines lines;

  /**
   * The sheet.
   *
   * @param happenedAt time of the final count of all lines
   * @param document report of the lines that name none of their own
   * @param checkedAt when all was checked; empty before
   * @param ready lines that may be recorded as they stand
   * @param recorded lines that were recorded just now
   */
  public record Content(
      List<GerminationLine> lines,
      String happenedAt,
      String document,
      String checkedAt,
      long ready,
      int recorded) {

    /** Whether something is wrong with a line. */
    public boolean refused() {
      return lines.stream().anyMatch(line -> !line.wrong().isEmpty());
    }
  }

  @CheckedTemplate(basePath = "web/laboratory")
  static class Templates {
    static native TemplateInstance germination(
        PageFrame page, Content sheet, Optional<Paging> paging);

    static native TemplateInstance line(GerminationLine line);
  }

  @GET
  @RequiresPermission(Permission.TEST_SAMPLES)
  public String sheet(
      @QueryParam("page") String page,
      @QueryParam("recorded") Integer recorded,
      @Context UriInfo uri) {
    PageFrame frame = pages.around(NavigationItem.LABORATORY, queries.asOf());
    PageView<LaboratorySample> waiting =
        PageView.of(
            samples.awaiting(Gate.GERMINATION, ignored.parameters().page(page), MOST_LINES, frame),
            Function.identity(),
            queries.asOf());
    List<GerminationLine> open = new ArrayList<>();
    for (LaboratorySample sample : waiting.items()) {
      open.add(lines.blank(open.size() + 1, sample, frame));
    }
    return pages.render(
        Templates.germination(
            frame,
            new Content(open, now(frame), "", "", 0, Optional.ofNullable(recorded).orElse(0)),
            Optional.of(Paging.of(waiting, uri))));
  }

  /** What one line comes to, while it is typed. */
  @GET
  @Path("line")
  @ReadsQueryItself
  @RequiresPermission(Permission.TEST_SAMPLES)
  public String line(@Context UriInfo uri) {
    PageFrame frame = pages.around(NavigationItem.LABORATORY);
    return pages.render(Templates.line(lines.read(1, uri.getQueryParameters(), frame).line()));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RequiresPermission(Permission.TEST_SAMPLES)
  public Response step(MultivaluedMap<String, String> posted) {
    PageFrame frame = pages.around(NavigationItem.LABORATORY);
    boolean records = "record".equals(posted.getFirst("step"));
    List<GerminationLine> left = new ArrayList<>();
    int recorded = 0;
    long ready = 0;
    for (int number = 1; number <= MOST_LINES && posted.containsKey(number + ".lotId"); number++) {
      MultivaluedMap<String, String> typed = ofLine(number, posted);
      GerminationLines.Read read = lines.read(number, typed, frame);
      if (records && read.fact().isPresent() && read.wasShown()) {
        Optional<GerminationLine> refused = lines.refused(read, typed);
        refused.ifPresent(left::add);
        recorded += refused.isPresent() ? 0 : 1;
      } else {
        left.add(read.line());
        ready += read.fact().isPresent() ? 1 : 0;
      }
    }
    if (records && recorded > 0 && left.stream().allMatch(GerminationLine::blank)) {
      return Response.seeOther(URI.create("/laboratory/germination?recorded=" + recorded)).build();
    }
    Content sheet =
        new Content(
            left,
            first(posted, "all." + FormParts.HAPPENED_AT),
            first(posted, "all." + GerminationLine.DOCUMENT),
            clock.instant().truncatedTo(ChronoUnit.MILLIS).toString(),
            ready,
            recorded);
    return Response.status(sheet.refused() ? UNPROCESSABLE : 200)
        .entity(pages.render(Templates.germination(frame, sheet, Optional.empty())))
        .build();
  }

  /** The fields of a line under their own names, with those that stand once for all. */
  private static MultivaluedMap<String, String> ofLine(
      int number, MultivaluedMap<String, String> posted) {
    String prefix = number + ".";
    MultivaluedMap<String, String> typed = new MultivaluedHashMap<>();
    posted.forEach(
        (name, values) -> {
          if (name.startsWith(prefix)) {
            typed.put(name.substring(prefix.length()), values);
          } else if (name.startsWith("all.") || name.equals("checkedAt")) {
            typed.put(name, values);
          }
        });
    return typed;
  }

  private static String first(MultivaluedMap<String, String> posted, String name) {
    return Optional.ofNullable(posted.getFirst(name)).orElse("");
  }

  private String now(PageFrame frame) {
    return LocalDateTime.ofInstant(clock.instant(), frame.form().zone())
        .truncatedTo(ChronoUnit.MINUTES)
        .toString();
  }
}
