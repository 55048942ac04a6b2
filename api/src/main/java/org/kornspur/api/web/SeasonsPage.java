package org.kornspur.api.web;

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
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.advice.CalibrationView;
import org.kornspur.api.query.advice.HybridityForecasts;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.readmodel.SeasonTotal;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.LocalForm;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.PredictionAgainstTruth;
import org.kornspur.processors.verdict.Fitness;

/** Seasons side by side, and what was forecast of hybridity beside what was found. */
@Path("/seasons")
public class SeasonsPage {
  @Inject PageFrames pages;
  @Inject VisibleData data;
  @Inject HybridityForecasts forecasts;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject CurrentCaller caller;

  /** One season of a kind of subject, as it is drawn. */
  public record Season(SeasonTotal total) {

    /**
     * The three counts as parts of a drawing {@link #BAR_WIDTH} wide.
     *
     * @param most crops or lots of the season that has most
     */
    public List<Part> bar(int most) {
      int notFitTo = pixels(total.notFit(), most);
      int owedTo = pixels(total.notFit() + total.owed(), most);
      return List.of(
          new Part(Fitness.NOT_FIT.name(), 0, notFitTo),
          new Part(Fitness.EVIDENCE_OWED.name(), notFitTo, owedTo - notFitTo),
          new Part(Fitness.FIT.name(), owedTo, pixels(total.all(), most) - owedTo));
    }

    private static int pixels(int counted, int most) {
      return (int) Math.round((double) counted * BAR_WIDTH / most);
    }
  }

  /**
   * The seasons of a kind of subject, the latest first.
   *
   * @param mayExport whether the facts of a season may be taken along
   * @param mayMap whether its fields may be
   */
  public record Seasons(List<Season> rows, boolean mayExport, boolean mayMap) {

    public int most() {
      return rows.stream().mapToInt(row -> row.total().all()).max().orElse(1);
    }
  }

  /** A part of a bar: from where and how wide, pixels. */
  public record Part(String state, int from, int width) {}

  /**
   * A forecast and what was found, drawn on one scale.
   *
   * @param predicted forecast in words
   * @param observed what was found, in words
   * @param predictedFrom where the forecast interval begins, pixels
   * @param observedAt where the share found stands
   */
  public record Forecast(
      String lot,
      String lotHref,
      String crop,
      String cropHref,
      String method,
      String predicted,
      String observed,
      PredictionAgainstTruth.Fit fit,
      int predictedFrom,
      int predictedWidth,
      int observedFrom,
      int observedTo,
      int observedAt) {}

  /** Width of the drawings, pixels. */
  static final int BAR_WIDTH = 320;

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance seasons(
        PageFrame page,
        Seasons lots,
        Seasons crops,
        List<Forecast> forecasts,
        CalibrationView calibration,
        String from,
        Filters filters);
  }

  @GET
  @RequiresPermission(Permission.READ_SEASONS)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  @Operation(hidden = true)
  public String seasons(@QueryParam("hybrid") String given, @Context UriInfo uri) {
    Parameters parameters = ignored.parameters();
    Optional<String> hybrid = parameters.id("hybrid", given);
    parameters.check();
    CalibrationView calibration =
        CalibrationView.of(
            hybrid.orElse(null),
            forecasts.calibration(hybrid),
            pages.words().words(),
            queries.asOf());
    double least = least(calibration);
    return pages.render(
        Templates.seasons(
            pages.around(NavigationItem.SEASONS, calibration.asOf()),
            seasons(Subject.Kind.LOT, hybrid),
            seasons(Subject.Kind.CROP, hybrid),
            calibration.rows().stream().map(point -> forecast(point, least)).toList(),
            calibration,
            pages.words().form().measure(least, "%"),
            Filters.of(uri, data.values(), pages.words().terms())));
  }

  private Seasons seasons(Subject.Kind kind, Optional<String> hybridId) {
    return new Seasons(
        data.seasons(kind, hybridId).stream().map(Season::new).toList(),
        kind == Subject.Kind.LOT && caller.get().may(Permission.EXPORT),
        kind == Subject.Kind.CROP && caller.get().may(Permission.READ_CROPS));
  }

  /** Left end of the scale of forecasts, a multiple of 5 %. */
  private static double least(CalibrationView calibration) {
    double least =
        calibration.rows().stream()
            .mapToDouble(
                point ->
                    Math.min(point.predicted().lowerPercent(), point.observed().lowerPercent()))
            .min()
            .orElse(0);
    return Math.min(95, Math.floor(least / 5) * 5);
  }

  private Forecast forecast(CalibrationView.Point point, double least) {
    Subject lot = Subject.parse(point.lot().subject());
    Subject crop = Subject.parse(point.crop().subject());
    int from = pixel(point.predicted().lowerPercent(), least);
    return new Forecast(
        lot.id(),
        Addresses.pageOf(lot),
        crop.id(),
        Addresses.pageOf(crop),
        point.method().name(),
        words(point.predicted()),
        words(point.observed()),
        point.fit(),
        from,
        pixel(point.predicted().upperPercent(), least) - from,
        pixel(point.observed().lowerPercent(), least),
        pixel(point.observed().upperPercent(), least),
        pixel(point.observed().percent(), least));
  }

  private String words(ShareView share) {
    LocalForm form = pages.words().form();
    return form.measure(share.percent(), "%")
        + "; "
        + pages
            .words()
            .texts("lot")
            .of(
                "intervalOf",
                form.measure(share.lowerPercent(), "%"),
                form.measure(share.upperPercent(), "%"),
                form.measure(share.confidencePercent(), "%"));
  }

  private static int pixel(double percent, double least) {
    return (int) Math.round((percent - least) / (100 - least) * BAR_WIDTH);
  }
}
