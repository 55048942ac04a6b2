package org.kornspur.api.web.map;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.kornspur.api.web.field.SvgPath;
import org.kornspur.api.web.field.SvgPath.Point;
import org.kornspur.api.web.map.SeasonMapData.Conflict;
import org.kornspur.api.web.map.SeasonMapData.Place;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.ground.FieldDrawing.Spot;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.IsolationZone;
import org.kornspur.processors.ground.MapPlane;
import org.kornspur.processors.ground.Outline;

/**
 * The map of a season. Its units are metres east and south of the middle of all places, so the part
 * that is shown is chosen by the view box alone; what must not grow with it, as marks and letters,
 * is drawn in units of the screen and scaled by {@code unit}.
 *
 * @param plane where positions lie on the map
 * @param whole the part that holds all
 * @param shown the part that is shown
 * @param unit metres of one unit of the screen
 * @param figures crops and sources; those that matter most are drawn last
 * @param lines from crops to sources that are too near
 * @param planned what approved plans put on fields
 */
public record SeasonDrawing(
    MapPlane plane,
    Box whole,
    Box shown,
    double unit,
    List<Figure> figures,
    List<Line> lines,
    List<PlannedFigure> planned,
    Bar bar) {

  /** The outline of a planned crop. */
  public record PlannedFigure(SeasonMapData.Planned crop, String outline, Point middle) {}

  /** Units of the screen that the part shown is taken to be wide. */
  static final double SCREEN = 960;

  private static final double LEAST_ACROSS_M = 1500;
  private static final double ROOM = 1.12;
  private static final double LETTER = 8.5;
  private static final double LINE = 20;

  /** A part of the map. */
  public record Box(double left, double top, double width, double height) {

    public double bottom() {
      return top + height;
    }

    public String viewBox() {
      return Stream.of(left, top, width, height)
          .map(SvgPath::number)
          .reduce((all, next) -> all + " " + next)
          .orElseThrow();
    }
  }

  /**
   * A crop or source.
   *
   * @param zone path of its isolation zone; empty where it has none
   * @param middle where its mark stands
   * @param labelled whether its name has room beside it
   */
  public record Figure(Place place, String outline, String zone, Point middle, boolean labelled) {}

  /**
   * A line between nearest points.
   *
   * @param distanceM how long it is, metres
   * @param certain whether it speaks against a crop at once
   */
  public record Line(String path, Point middle, double distanceM, boolean certain) {}

  /** A scale bar: how long it is in metres and on the screen. */
  public record Bar(int metres, double length) {

    /** Where it ends on the screen, from the edge. */
    public double end() {
      return 16 + length;
    }
  }

  /**
   * @param at what is shown from near; all where it is empty
   */
  static Optional<SeasonDrawing> of(SeasonMapData ground, Optional<Place> at) {
    if (ground.places().isEmpty() && ground.planned().isEmpty()) {
      return Optional.empty();
    }
    List<GeoPosition> corners =
        Stream.concat(
                ground.places().stream().map(Place::outline),
                ground.planned().stream().map(SeasonMapData.Planned::outline))
            .flatMap(outline -> outline.corners().stream())
            .toList();
    MapPlane plane = MapPlane.around(corners);
    Box whole = box(plane, corners, widest(ground.places()));
    Box shown =
        at.map(place -> box(plane, place.outline().corners(), widest(List.of(place))))
            .orElse(whole);
    double unit = tenths(100 * shown.width() / SCREEN) / 100;
    return Optional.of(
        new SeasonDrawing(
            plane,
            whole,
            shown,
            unit,
            figures(ground.places(), plane, unit),
            lines(ground.conflicts(), plane),
            ground.planned().stream().map(crop -> planned(crop, plane)).toList(),
            bar(unit)));
  }

  /** The widest distance that is asked for, metres. */
  private static double widest(List<Place> places) {
    return places.stream()
        .flatMap(place -> place.asked().stream())
        .mapToDouble(asked -> asked.value())
        .max()
        .orElse(0);
  }

  /** The part that holds places and so many metres around them. */
  private static Box box(MapPlane plane, List<GeoPosition> places, double aroundM) {
    List<Point> points = places.stream().map(place -> point(plane, place)).toList();
    double left = points.stream().mapToDouble(Point::x).min().orElse(0) - aroundM;
    double right = points.stream().mapToDouble(Point::x).max().orElse(0) + aroundM;
    double top = points.stream().mapToDouble(Point::y).min().orElse(0) - aroundM;
    double bottom = points.stream().mapToDouble(Point::y).max().orElse(0) + aroundM;
    double width = Math.max(LEAST_ACROSS_M, ROOM * (right - left));
    double height = Math.max(LEAST_ACROSS_M * 0.6, ROOM * (bottom - top));
    return new Box((left + right - width) / 2, (top + bottom - height) / 2, width, height);
  }

  private static List<Figure> figures(List<Place> worstFirst, MapPlane plane, double unit) {
    List<Point> middles =
        worstFirst.stream().map(place -> middle(points(plane, place.outline().corners()))).toList();
    List<Box> taken = new ArrayList<>();
    middles.forEach(middle -> taken.add(beside(middle, -LINE / 2, LINE, unit)));
    List<Figure> figures = new ArrayList<>();
    for (int at = 0; at < middles.size(); at++) {
      Place place = worstFirst.get(at);
      Box label = beside(middles.get(at), LINE * 0.9, LETTER * place.subject().id().length(), unit);
      boolean labelled = taken.stream().noneMatch(other -> overlap(label, other));
      if (labelled) {
        taken.add(label);
      }
      figures.add(
          new Figure(
              place,
              outline(plane, place.outline()),
              zone(plane, place),
              middles.get(at),
              labelled));
    }
    Collections.reverse(figures);
    return List.copyOf(figures);
  }

  /** Room of a line that begins so far from a middle, in units of the screen. */
  private static Box beside(Point middle, double from, double width, double unit) {
    return new Box(
        middle.x() + from * unit, middle.y() - LINE / 2 * unit, width * unit, LINE * unit);
  }

  private static boolean overlap(Box one, Box other) {
    return one.left() < other.left() + other.width()
        && other.left() < one.left() + one.width()
        && one.top() < other.top() + other.height()
        && other.top() < one.top() + one.height();
  }

  private static PlannedFigure planned(SeasonMapData.Planned crop, MapPlane plane) {
    return new PlannedFigure(
        crop, outline(plane, crop.outline()), middle(points(plane, crop.outline().corners())));
  }

  private static String outline(MapPlane plane, Outline outline) {
    List<List<Point>> rings = new ArrayList<>();
    rings.add(points(plane, outline.corners()));
    outline.holes().forEach(hole -> rings.add(points(plane, hole)));
    return SvgPath.rings(rings);
  }

  private static String zone(MapPlane plane, Place place) {
    return place
        .asked()
        .map(asked -> IsolationZone.coarselyAround(place.outline(), asked.value()))
        .map(
            zone ->
                Stream.concat(Stream.of(zone.shell()), zone.holes().stream())
                    .map(ring -> SvgPath.shortRing(points(plane, ring)))
                    .reduce("", String::concat))
        .orElse("");
  }

  /** Two crops may be too near each other: one line is enough. */
  private static List<Line> lines(List<Conflict> conflicts, MapPlane plane) {
    List<Line> lines = new ArrayList<>();
    Set<Set<Subject>> drawn = new HashSet<>();
    for (Conflict conflict : conflicts) {
      if (drawn.add(Set.of(conflict.crop(), conflict.neighbour().source()))) {
        lines.add(
            line(
                plane,
                conflict.neighbour().onCrop(),
                conflict.neighbour().onSource(),
                conflict.neighbour().distanceM(),
                conflict.certain()));
      }
    }
    return List.copyOf(lines);
  }

  static Line line(
      MapPlane plane, GeoPosition from, GeoPosition to, double distanceM, boolean certain) {
    List<Point> ends = points(plane, List.of(from, to));
    return new Line(SvgPath.line(ends), middle(ends), distanceM, certain);
  }

  private static Bar bar(double unit) {
    int metres =
        Stream.of(10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000)
            .filter(length -> length / unit <= SCREEN / 5)
            .reduce((shorter, longer) -> longer)
            .orElse(10);
    return new Bar(metres, tenths(metres / unit));
  }

  private static List<Point> points(MapPlane plane, List<GeoPosition> places) {
    return places.stream().map(place -> point(plane, place)).toList();
  }

  static Point point(MapPlane plane, GeoPosition place) {
    Spot spot = plane.spot(place);
    return new Point(spot.eastM(), -spot.northM());
  }

  private static double tenths(double value) {
    return Math.rint(value * 10) / 10;
  }

  /** The middle of the least box around points. */
  private static Point middle(List<Point> points) {
    double left = points.stream().mapToDouble(Point::x).min().orElse(0);
    double right = points.stream().mapToDouble(Point::x).max().orElse(0);
    double top = points.stream().mapToDouble(Point::y).min().orElse(0);
    double bottom = points.stream().mapToDouble(Point::y).max().orElse(0);
    return new Point(tenths((left + right) / 2), tenths((top + bottom) / 2));
  }
}
