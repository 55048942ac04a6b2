package org.kornspur.api.web.season;

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
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.SeasonParameters;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.advice.CalibrationView;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.query.season.SeasonComparison;
import org.kornspur.api.query.season.SeasonView;
import org.kornspur.api.query.season.SeasonsView;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.web.Filters;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.PredictionAgainstTruth;

/** Seasons side by side, and what was forecast of hybridity beside what was found. */
@Path("/seasons")
public class SeasonsPage {
  @Inject PageFrames pages;
  @Inject VisibleData data;
  @Inject SeasonComparison comparison;
  @Inject IgnoredParameters ignored;
  @Inject CurrentCaller caller;

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

  @CheckedTemplate(basePath = "web/season")
  static class Templates {
    static native TemplateInstance seasons(
        PageFrame page,
        SeasonsView view,
        SeasonTableView lots,
        SeasonTableView crops,
        List<Forecast> forecasts,
        CalibrationView calibration,
        String from,
        Filters filters,
        boolean mayReadCharts,
        String asked);
  }

  @GET
  @RequiresPermission(Permission.READ_SEASONS)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  public String seasons(@BeanParam SeasonParameters narrowed, @Context UriInfo uri) {
    SeasonFilter filter = narrowed.filter(ignored.parameters());
    CalibrationView calibration = comparison.calibration(filter);
    SeasonsView view = comparison.seasons(filter, calibration);
    double least = least(calibration);
    return pages.render(
        Templates.seasons(
            pages.around(NavigationItem.SEASONS, view.asOf()),
            view,
            table(view.lots(), true, caller.get().may(Permission.EXPORT), false),
            table(view.crops(), false, false, caller.get().may(Permission.READ_CROPS)),
            calibration.rows().stream().map(point -> forecast(point, least)).toList(),
            calibration,
            pages.words().form().measure(least, "%"),
            Filters.of(uri, data.values(), pages.words().terms()),
            caller.get().may(Permission.READ_CONTROL_CHARTS),
            asked(filter)));
  }

  /** The same question as the query of an address; empty where nothing is asked for. */
  private static String asked(SeasonFilter filter) {
    String query =
        Stream.of(
                filter.hybridId().map(id -> "hybrid=" + Addresses.part(id)),
                filter.seedId().map(id -> "seedId=" + Addresses.part(id)),
                filter.holder().map(id -> "holder=" + Addresses.part(id)))
            .flatMap(Optional::stream)
            .collect(Collectors.joining("&"));
    return query.isEmpty() ? "" : "?" + query;
  }

  private static SeasonTableView table(
      List<SeasonView> seasons, boolean masses, boolean mayExport, boolean mayMap) {
    return new SeasonTableView(
        seasons.stream()
            .map(season -> new SeasonTableView.Row(String.valueOf(season.cropYear()), "", season))
            .toList(),
        masses,
        mayExport,
        mayMap);
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
    LocalFormat form = pages.words().form();
    return pages
        .words()
        .texts("seasons")
        .of(
            "share",
            form.number(share.percent(), 1),
            form.number(share.lowerPercent(), 1),
            form.number(share.upperPercent(), 1));
  }

  private static int pixel(double percent, double least) {
    return (int) Math.round((percent - least) / (100 - least) * SeasonTableView.BAR_WIDTH);
  }
}
