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
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.advice.CalibrationView;
import org.kornspur.api.query.advice.HybridityForecasts;
import org.kornspur.api.query.advice.ShareView;
import org.kornspur.api.readmodel.StandingRow;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.LocalForm;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.PredictionAgainstTruth;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.standing.SeedMaterial;

/** Seasons side by side, and what was forecast of hybridity beside what was found. */
@Path("/seasons")
public class SeasonsPage {
  @Inject Framing framing;
  @Inject VisibleData data;
  @Inject Choices choices;
  @Inject HybridityForecasts forecasts;
  @Inject QueryService queries;
  @Inject RequestWords words;
  @Inject IgnoredParameters ignored;

  /**
   * One season of a kind of subject.
   *
   * @param leftKg seed in store; 0 for crops
   * @param givenOutKg seed that left its lots; 0 for crops
   * @param bar the three counts as parts of a drawing {@link #BAR_WIDTH} wide
   */
  public record Season(
      int year, int fit, int owed, int notFit, double leftKg, double givenOutKg, List<Part> bar) {

    /** Number of crops or lots. */
    public int all() {
      return fit + owed + notFit;
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
        Frame page,
        List<Season> lots,
        List<Season> crops,
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
    String hybrid = parameters.id("hybrid", given).orElse(null);
    parameters.check();
    CalibrationView calibration =
        CalibrationView.of(
            hybrid,
            forecasts.calibration(Optional.ofNullable(hybrid)),
            words.words(),
            queries.asOf());
    double least = least(calibration);
    return framing.render(
        Templates.seasons(
            framing.around(NavigationItem.SEASONS, calibration.asOf()),
            seasons(Subject.Kind.LOT, hybrid),
            seasons(Subject.Kind.CROP, hybrid),
            calibration.rows().stream().map(point -> forecast(point, least)).toList(),
            calibration,
            framing.form().measure(least, "%"),
            choices.filters(uri)));
  }

  /** What is counted while the rows are gone through. */
  private static final class Tally {
    int fit;
    int owed;
    int notFit;
    double leftKg;
    double givenOutKg;

    void add(StandingRow row) {
      switch (row.state()) {
        case FIT -> fit++;
        case EVIDENCE_OWED, UNKNOWN -> owed++;
        case NOT_FIT -> notFit++;
      }
      leftKg += Math.max(0, row.heldKg() - row.givenOutKg());
      givenOutKg += row.givenOutKg();
    }
  }

  private List<Season> seasons(Subject.Kind kind, String hybrid) {
    TreeMap<Integer, Tally> tallies = new TreeMap<>();
    data.forEachRow(
        row ->
            row.material()
                .filter(material -> row.subject().kind() == kind && isOf(material, hybrid))
                .ifPresent(
                    material ->
                        tallies
                            .computeIfAbsent(material.getCropYear(), year -> new Tally())
                            .add(row)));
    int most =
        tallies.values().stream()
            .mapToInt(tally -> tally.fit + tally.owed + tally.notFit)
            .max()
            .orElse(1);
    return tallies.entrySet().stream()
        .map(
            season -> {
              Tally tally = season.getValue();
              return new Season(
                  season.getKey(),
                  tally.fit,
                  tally.owed,
                  tally.notFit,
                  tally.leftKg,
                  tally.givenOutKg,
                  bar(tally, most));
            })
        .sorted(Comparator.comparingInt(Season::year).reversed())
        .toList();
  }

  private static boolean isOf(SeedMaterial material, String hybrid) {
    return hybrid == null || material.getHybridId().equals(hybrid);
  }

  private static List<Part> bar(Tally tally, int most) {
    List<Part> parts = new ArrayList<>();
    int from = 0;
    int counted = 0;
    int[] counts = {tally.notFit, tally.owed, tally.fit};
    Fitness[] states = {Fitness.NOT_FIT, Fitness.EVIDENCE_OWED, Fitness.FIT};
    for (int i = 0; i < counts.length; i++) {
      counted += counts[i];
      int to = (int) Math.round((double) counted * BAR_WIDTH / most);
      parts.add(new Part(states[i].name(), from, to - from));
      from = to;
    }
    return parts;
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
        PageAddresses.of(lot),
        crop.id(),
        PageAddresses.of(crop),
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
    PageTexts texts = framing.texts("lot");
    LocalForm form = framing.form();
    return form.measure(share.percent(), "%")
        + "; "
        + texts.of(
            "intervalOf",
            form.measure(share.lowerPercent(), "%"),
            form.measure(share.upperPercent(), "%"),
            form.measure(share.confidencePercent(), "%"));
  }

  private static int pixel(double percent, double least) {
    return (int) Math.round((percent - least) / (100 - least) * BAR_WIDTH);
  }
}
