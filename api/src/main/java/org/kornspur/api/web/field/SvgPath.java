package org.kornspur.api.web.field;

import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Writes places on a drawing as SVG has them (SVG 1.1, 8.3), to a tenth of a unit. */
public final class SvgPath {

  private SvgPath() {}

  /** A place on a drawing, x to the right and y down. */
  public record Point(double x, double y) {}

  public static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value + 0.0);
  }

  /** Path data of closed rings. */
  public static String rings(List<List<Point>> rings) {
    return rings.stream().map(ring -> line(ring) + "Z").collect(Collectors.joining());
  }

  /**
   * Path data of a closed ring in whole units, each place from the one before: the shortest form.
   */
  public static String shortRing(List<Point> ring) {
    StringBuilder path = new StringBuilder();
    long x = 0;
    long y = 0;
    for (Point point : ring) {
      path.append(path.isEmpty() ? 'M' : 'l')
          .append(Math.round(point.x()) - x)
          .append(' ')
          .append(Math.round(point.y()) - y);
      x = Math.round(point.x());
      y = Math.round(point.y());
    }
    return path.append('z').toString();
  }

  /** Path data of a line. */
  public static String line(List<Point> points) {
    Function<Point, String> place = point -> number(point.x()) + " " + number(point.y());
    return "M" + points.stream().map(place).collect(Collectors.joining("L"));
  }
}
