package org.kornspur.api.web.season;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.kornspur.api.query.season.ControlChartView;
import org.kornspur.api.web.field.SvgPath;
import org.kornspur.api.web.field.SvgPath.Point;

/**
 * A chart of ranges as it is drawn: tests from left to right in their order, percentage points
 * upwards.
 *
 * @param marks tests with a range
 * @param limits path of the control limits, a short step for each test
 * @param tolerances path of the published tolerances, likewise
 */
public record ControlChart(List<Mark> marks, String limits, String tolerances, int most) {
  static final int LEFT = 44;
  static final int RIGHT = 624;
  static final int TOP = 16;
  static final int FOOT = 300;

  /** Tests that one drawing holds apart. */
  static final int MOST_TESTS = 100;

  private static final int LEVELS = 5;

  /** A test: a circle, a diamond beyond its control limit, a cross beyond the tolerance. */
  public record Mark(double x, double y, Shape shape) {

    /** The mark as path data. */
    public String path() {
      return switch (shape) {
        case WITHIN -> "";
        case BEYOND_LIMIT -> diamond();
        case BEYOND_TOLERANCE -> cross();
      };
    }

    private String diamond() {
      return SvgPath.rings(
          List.of(
              List.of(
                  new Point(x, y - 7),
                  new Point(x + 7, y),
                  new Point(x, y + 7),
                  new Point(x - 7, y))));
    }

    private String cross() {
      return SvgPath.line(List.of(new Point(x - 6, y - 6), new Point(x + 6, y + 6)))
          + SvgPath.line(List.of(new Point(x - 6, y + 6), new Point(x + 6, y - 6)));
    }
  }

  /** What a mark tells. */
  public enum Shape {
    WITHIN,
    BEYOND_LIMIT,
    BEYOND_TOLERANCE
  }

  /** A line of the axis, percentage points. */
  public record Level(int value, double y) {}

  /** Of the last tests, as many as a drawing holds apart. */
  static ControlChart of(List<ControlChartView.Test> all) {
    List<ControlChartView.Test> tests = last(all);
    int most = most(tests);
    double step = (double) (RIGHT - LEFT) / tests.size();
    List<Mark> marks = new ArrayList<>();
    StringBuilder limits = new StringBuilder();
    StringBuilder tolerances = new StringBuilder();
    for (int i = 0; i < tests.size(); i++) {
      ControlChartView.Test test = tests.get(i);
      double x = LEFT + (i + 0.5) * step;
      if (test.rangePercent() != null) {
        marks.add(new Mark(x, y(test.rangePercent(), most), shape(test)));
      }
      limits.append(step(test.limitPercent(), x, step, most));
      tolerances.append(step(test.tolerancePercent(), x, step, most));
    }
    return new ControlChart(List.copyOf(marks), limits.toString(), tolerances.toString(), most);
  }

  static List<ControlChartView.Test> last(List<ControlChartView.Test> all) {
    return all.subList(Math.max(0, all.size() - MOST_TESTS), all.size());
  }

  private static int most(List<ControlChartView.Test> tests) {
    OptionalDouble highest =
        tests.stream()
            .flatMap(
                test ->
                    Stream.of(test.rangePercent(), test.limitPercent(), test.tolerancePercent()))
            .flatMapToDouble(value -> value == null ? DoubleStream.empty() : DoubleStream.of(value))
            .max();
    return LEVELS * (int) Math.ceil(Math.max(1, highest.orElse(0)) / LEVELS);
  }

  private static Shape shape(ControlChartView.Test test) {
    if (test.beyondTolerance()) {
      return Shape.BEYOND_TOLERANCE;
    }
    return test.beyondLimit() ? Shape.BEYOND_LIMIT : Shape.WITHIN;
  }

  private static String step(Double value, double x, double step, int most) {
    if (value == null) {
      return "";
    }
    double y = y(value, most);
    return SvgPath.line(List.of(new Point(x - step / 2, y), new Point(x + step / 2, y)));
  }

  private static double y(double value, int most) {
    return FOOT - (FOOT - TOP) * value / most;
  }

  public List<Level> levels() {
    List<Level> levels = new ArrayList<>();
    for (int i = 0; i <= LEVELS; i++) {
      int value = most / LEVELS * i;
      levels.add(new Level(value, y(value, most)));
    }
    return levels;
  }
}
