package org.kornspur.api.web.map;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.net.URI;
import java.time.LocalDate;
import java.time.Year;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.api.readmodel.SeasonTotal;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.Paging;
import org.kornspur.api.web.field.FieldWords;
import org.kornspur.api.web.map.MapDistances.Measured;
import org.kornspur.api.web.map.SeasonDrawing.Box;
import org.kornspur.api.web.map.SeasonDrawing.Line;
import org.kornspur.api.web.map.SeasonMapData.Flowering;
import org.kornspur.api.web.map.SeasonMapData.Place;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.SightedPlace;
import org.kornspur.standing.StandingState;

/** The fields of a season and the pollen around them, on a map and in tables. */
@Path("/map")
public class MapPage {
  private static final List<String> MARKS =
      List.of(
          StandingState.FIT.name(),
          StandingState.EVIDENCE_OWED.name(),
          StandingState.NOT_FIT.name(),
          "SOURCE");
  private static final int A_PAGE = 200;
  private static final double FARTHEST_M = 10_000;
  private static final double USUAL_ACROSS_M = 10;

  @Inject PageFrames pages;
  @Inject VisibleData data;
  @Inject QueryService queries;
  @Inject SeasonMapAssembler grounds;
  @Inject MapDistances distances;
  @Inject MapPicture picture;
  @Inject PlannedOnMap planned;
  @Inject IgnoredParameters ignored;
  @Inject CurrentCaller caller;

  /** A season that can be chosen. */
  public record Season(int year, boolean here) {}

  /**
   * What the page shows.
   *
   * @param day for which flowering is shown; empty for none
   * @param chosen what the distance is measured between
   * @param measured the line between these
   * @param picture where the picture of the site lies
   * @param script texts of the script, with open arguments
   * @param mayEnter whether who asks may enter sources of pollen
   */
  public record MapView(
      List<Season> seasons,
      SeasonMapData ground,
      Optional<SeasonDrawing> drawing,
      Optional<LocalDate> day,
      List<Subject> chosen,
      Optional<Measured> measured,
      Optional<Line> line,
      Optional<Box> picture,
      ResultPage<Place> rows,
      Paging paging,
      Map<String, String> script,
      boolean mayEnter) {

    /** Whether something flowers on the day that is shown; empty where none is. */
    public Optional<Flowering> flowering(Place place) {
      return day.map(place::on);
    }

    /** The marks of the map, for its legend. */
    public List<String> marks() {
      return MARKS;
    }

    public boolean isChosen(Place place) {
      return chosen.contains(place.subject());
    }
  }

  @CheckedTemplate(basePath = "web/map")
  static class Templates {
    static native TemplateInstance season(PageFrame page, MapView view, FieldWords words);
  }

  @GET
  @RequiresPermission(Permission.READ_CROPS)
  public Response latest() {
    int year =
        data.seasons(Subject.Kind.CROP, SeasonFilter.ALL).stream()
            .map(SeasonTotal::year)
            .max(Comparator.naturalOrder())
            .orElseGet(() -> Year.now(ZoneId.systemDefault()).getValue());
    return Response.seeOther(URI.create("/map/" + year)).build();
  }

  /**
   * @param at crop or source that is shown from near
   * @param between two of them, for the distance
   */
  @GET
  @Path("{year}")
  @RequiresPermission(Permission.READ_CROPS)
  @HeavyDocument
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  public String season(
      @PathParam("year") String givenYear,
      @QueryParam("day") String day,
      @QueryParam("at") String at,
      @QueryParam("between") List<String> between,
      @QueryParam("page") String page,
      @Context UriInfo uri) {
    int year = year(givenYear);
    Parameters parameters = ignored.parameters();
    Optional<LocalDate> shownDay = parameters.day("day", day);
    Optional<Subject> shownAt = parameters.ground("at", at);
    List<Subject> chosen =
        between.stream()
            .flatMap(text -> parameters.ground("between", text).stream())
            .distinct()
            .toList();
    int number = parameters.page(page);
    parameters.check();
    SeasonMapData ground = grounds.of(year);
    Optional<SeasonDrawing> drawing = SeasonDrawing.of(ground, shownAt.flatMap(ground::place));
    Optional<Measured> measured =
        chosen.size() == 2
            ? Optional.of(distances.between(chosen.get(0), chosen.get(1)))
            : Optional.empty();
    ResultPage<Place> rows = ResultPage.of(ground.places().stream(), number, A_PAGE);
    return pages.render(
        Templates.season(
            pages.around(NavigationItem.MAP, queries.asOf()),
            new MapView(
                seasons(year),
                ground,
                drawing,
                shownDay,
                chosen,
                measured,
                drawing.flatMap(map -> measured.map(found -> found.on(map.plane()))),
                drawing.flatMap(map -> picture.on(map.plane())),
                rows,
                Paging.of(rows, uri),
                pages.words().texts("map").openTexts("script"),
                caller.get().may(Permission.POST_POLLEN_SOURCES)),
            words()));
  }

  /** The shortest way between two crops or sources. */
  @GET
  @Path("{year}/distance")
  @RequiresPermission(Permission.READ_CROPS)
  @Produces(MediaType.APPLICATION_JSON)
  public Measured distance(
      @PathParam("year") String givenYear,
      @QueryParam("from") String from,
      @QueryParam("to") String to) {
    year(givenYear);
    Parameters parameters = new Parameters();
    parameters.together("from", from, "to", to);
    Optional<Subject> first = parameters.ground("from", from);
    Optional<Subject> second = parameters.ground("to", to);
    parameters.check();
    return distances.between(
        first.orElseThrow(() -> missing("from", new ParameterProblem.NoGround())),
        second.orElseThrow(() -> missing("to", new ParameterProblem.NoGround())));
  }

  /**
   * Leads to the form for a source of pollen, with its place filled in.
   *
   * @param place longitude and latitude of its middle; else it is seen from a field
   * @param from crop that it is seen from
   * @param bearing from the middle of that field, degrees from north
   * @param distance beyond the edge of that field, metres
   * @param across how wide it is taken to be, metres
   */
  @GET
  @Path("{year}/source")
  @RequiresPermission(Permission.POST_POLLEN_SOURCES)
  public Response source(
      @PathParam("year") String givenYear,
      @QueryParam("place") String place,
      @QueryParam("from") String from,
      @QueryParam("bearing") String bearing,
      @QueryParam("distance") String distance,
      @QueryParam("across") String across) {
    int cropYear = year(givenYear);
    Parameters parameters = new Parameters();
    Optional<GeoPosition> tapped = parameters.place("place", place);
    Optional<String> crop = parameters.id("from", from);
    double bearingDeg = parameters.decimal("bearing", bearing, 0, 0, 360);
    double distanceM = parameters.decimal("distance", distance, 0, 0, FARTHEST_M);
    double acrossM = parameters.decimal("across", across, USUAL_ACROSS_M, 1, 1000);
    parameters.check();
    SightedPlace seen =
        tapped
            .map(SightedPlace::new)
            .or(
                () ->
                    crop.map(Subject::crop)
                        .map(grounds::outline)
                        .map(field -> SightedPlace.beyondEdge(field, bearingDeg, distanceM)))
            .orElseThrow(() -> missing("place", new ParameterProblem.NoPlace()));
    return Response.seeOther(URI.create(form(cropYear, seen.square(acrossM)))).build();
  }

  private static String form(int cropYear, List<GeoPosition> corners) {
    String outline =
        corners.stream()
            .map(corner -> String.format(Locale.ROOT, "%.6f,%.6f", corner.lon(), corner.lat()))
            .collect(Collectors.joining(";"));
    return Addresses.form(FactType.POLLEN_SOURCE_SEEN)
        + "?cropYear="
        + cropYear
        + "&outline="
        + Addresses.part(outline);
  }

  /** The ground as the site shows it. */
  @GET
  @Path("ground/picture")
  @RequiresPermission(Permission.READ_CROPS)
  public Response picture() {
    java.nio.file.Path file =
        picture
            .file()
            .orElseThrow(
                () ->
                    ApiProblem.notFound(
                        new AddressDetail.NoResource(Given.text("/map/ground/picture", false))));
    return Response.ok(file.toFile(), MapPicture.type(file).orElseThrow())
        .header(HttpHeaders.CACHE_CONTROL, "private, max-age=3600")
        .build();
  }

  private static ApiProblem missing(String name, ParameterProblem reason) {
    return new ApiProblem(ProblemKind.INVALID_PARAMETER, List.of(Problem.of(name, "", reason)));
  }

  private static int year(String given) {
    if (!given.matches("\\d{4}")) {
      throw new ApiProblem(
          ProblemKind.INVALID_PARAMETER,
          new AddressDetail.NoWholeNumber("year", Given.text(given, false)));
    }
    return Integer.parseInt(given);
  }

  private List<Season> seasons(int shown) {
    return Stream.concat(
            planned.years().stream(),
            data.seasons(Subject.Kind.CROP, SeasonFilter.ALL).stream().map(SeasonTotal::year))
        .distinct()
        .sorted(Comparator.reverseOrder())
        .map(year -> new Season(year, year == shown))
        .toList();
  }

  private FieldWords words() {
    return new FieldWords(pages.words().texts("field"), pages.words().words());
  }
}
