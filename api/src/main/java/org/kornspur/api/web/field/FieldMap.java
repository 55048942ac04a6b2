package org.kornspur.api.web.field;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.text.DistanceFormat;
import org.kornspur.api.web.field.CropSurroundings.Source;
import org.kornspur.api.web.field.SvgPath.Point;
import org.kornspur.processors.ground.FieldDrawing;
import org.kornspur.processors.ground.FieldDrawing.Figure;
import org.kornspur.processors.ground.FieldDrawing.Spot;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.standards.Limit;

/**
 * The map of a field, north up, drawn to scale in units of an SVG view box.
 *
 * @param width of the view box
 * @param height of the view box
 * @param field path of the crop's outline
 * @param zone path of the ground within the distance that is asked for
 * @param sources those that lie on the map
 * @param bar scale bar
 */
public record FieldMap(
    int width,
    int height,
    String field,
    Optional<String> zone,
    List<Placed> sources,
    ScaleBar bar) {
  private static final int WIDTH = 640;
  private static final int MOST_HEIGHT = 620;
  private static final double MARGIN = 36;
  private static final double FOOT = 56;

  /** Without a distance that is asked for, so much is shown around the field, metres. */
  private static final double USUAL_REACH_M = 500;

  /** So much farther than is asked for a source is still drawn. */
  private static final double BEYOND = 1.5;

  /**
   * A source on the map.
   *
   * @param area path of its outline; empty where it cannot be drawn
   * @param line path from the nearest point of the field to its nearest point
   * @param onField nearest point of the field
   * @param onSource nearest point of the source
   * @param label where letter and distance stand
   */
  public record Placed(
      Source source, String area, String line, Point onField, Point onSource, Point label) {

    public String distanceM() {
      return DistanceFormat.shown(source.neighbour().distanceM());
    }
  }

  /**
   * A scale bar.
   *
   * @param lengthM length that it stands for, metres
   * @param length on the map, units
   */
  public record ScaleBar(int lengthM, double length) {}

  static Optional<FieldMap> of(CropSurroundings ground) {
    return ground.outline().map(outline -> draw(ground, outline));
  }

  private static FieldMap draw(CropSurroundings ground, Outline outline) {
    FieldDrawing plan = FieldDrawing.around(outline);
    Figure field = plan.field();
    Optional<Figure> zone = ground.required().map(asked -> plan.zone(asked.value()));
    List<Source> shown = shown(ground);
    Box box = new Box();
    zone.orElse(field).shell().forEach(box::hold);
    for (Source source : shown) {
      box.hold(plan.spot(source.neighbour().onSource()));
    }
    Sheet sheet = box.sheet();
    LabelPlacement labels = new LabelPlacement(sheet.width, sheet.height - FOOT);
    List<Point> corners = field.shell().stream().map(sheet::at).toList();
    labels.keepClear(corners);
    for (Source source : shown) {
      labels.keepClear(
          sheet.at(plan.spot(source.neighbour().onCrop())),
          sheet.at(plan.spot(source.neighbour().onSource())));
    }
    List<Placed> placed = new ArrayList<>();
    for (Source source : shown) {
      Point onField = sheet.at(plan.spot(source.neighbour().onCrop()));
      Point onSource = sheet.at(plan.spot(source.neighbour().onSource()));
      String text =
          source.letter() + " " + DistanceFormat.shown(source.neighbour().distanceM()) + " m";
      placed.add(
          new Placed(
              source,
              source.outline().map(plan::figure).map(sheet::path).orElse(""),
              SvgPath.line(List.of(onField, onSource)),
              onField,
              onSource,
              labels.place(text, onField, onSource)));
    }
    return new FieldMap(
        sheet.width,
        sheet.height,
        sheet.path(field),
        zone.map(sheet::path),
        List.copyOf(placed),
        bar(sheet.scale));
  }

  /** Sources on the map: those near the distance that is asked for, and always the nearest. */
  private static List<Source> shown(CropSurroundings ground) {
    double reachM = BEYOND * ground.required().map(Limit::value).orElse(USUAL_REACH_M);
    List<Source> near =
        ground.sources().stream()
            .filter(source -> source.neighbour().distanceM() <= reachM)
            .toList();
    return near.isEmpty() ? ground.sources().stream().limit(1).toList() : near;
  }

  private static ScaleBar bar(double scale) {
    int lengthM =
        Stream.of(10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000)
            .filter(metres -> metres * scale <= WIDTH / 3.0)
            .reduce((shorter, longer) -> longer)
            .orElse(10);
    return new ScaleBar(lengthM, lengthM * scale);
  }

  /** The least box in metres that holds all that must be seen. */
  private static final class Box {
    private final DoubleSummaryStatistics eastM = new DoubleSummaryStatistics();
    private final DoubleSummaryStatistics northM = new DoubleSummaryStatistics();

    void hold(Spot spot) {
      eastM.accept(spot.eastM());
      northM.accept(spot.northM());
    }

    Sheet sheet() {
      double across = eastM.getMax() - eastM.getMin();
      double down = northM.getMax() - northM.getMin();
      double scale =
          Math.min((WIDTH - 2 * MARGIN) / across, (MOST_HEIGHT - 2 * MARGIN - FOOT) / down);
      int height = (int) Math.ceil(down * scale + 2 * MARGIN + FOOT);
      double left = (WIDTH - across * scale) / 2 - eastM.getMin() * scale;
      return new Sheet(WIDTH, height, scale, left, MARGIN + northM.getMax() * scale);
    }
  }

  /** Turns metres into units of the view box. */
  private record Sheet(int width, int height, double scale, double left, double top) {

    Point at(Spot spot) {
      return new Point(left + spot.eastM() * scale, top - spot.northM() * scale);
    }

    String path(Figure figure) {
      List<List<Point>> rings = new ArrayList<>();
      rings.add(figure.shell().stream().map(this::at).toList());
      figure.holes().forEach(hole -> rings.add(hole.stream().map(this::at).toList()));
      return SvgPath.rings(rings);
    }
  }
}
