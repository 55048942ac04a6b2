package org.kornspur.api.web.field;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.kornspur.api.web.field.SvgPath.Point;

/**
 * Finds room for labels on a drawing: each stands near its line, within the sheet, and as little as
 * may be on others. Letters are taken as large as a narrow screen shows them.
 */
final class LabelPlacement {
  private static final double LETTER = 12.5;
  private static final double LINE = 26;
  private static final double END = 12;
  private static final int PIECES_OF_A_LINE = 12;

  private final double width;
  private final double height;
  private final List<Box> taken = new ArrayList<>();

  LabelPlacement(double width, double height) {
    this.width = width;
    this.height = height;
  }

  private record Box(double left, double top, double right, double bottom) {

    static Box around(Point middle, double width, double height) {
      return new Box(
          middle.x() - width / 2,
          middle.y() - height / 2,
          middle.x() + width / 2,
          middle.y() + height / 2);
    }

    double shared(Box other) {
      double across = Math.min(right, other.right) - Math.max(left, other.left);
      double down = Math.min(bottom, other.bottom) - Math.max(top, other.top);
      return across > 0 && down > 0 ? across * down : 0;
    }

    Point middle() {
      return new Point((left + right) / 2, (top + bottom) / 2);
    }
  }

  /** Ground that labels should leave free. */
  void keepClear(List<Point> corners) {
    double left = corners.stream().mapToDouble(Point::x).min().orElse(0);
    double right = corners.stream().mapToDouble(Point::x).max().orElse(0);
    double top = corners.stream().mapToDouble(Point::y).min().orElse(0);
    double bottom = corners.stream().mapToDouble(Point::y).max().orElse(0);
    taken.add(new Box(left, top, right, bottom));
  }

  /** The middle of a label beside a line. */
  Point place(String text, Point from, Point to) {
    double wide = text.length() * LETTER + 8;
    Box best =
        candidates(from, to, wide)
            .map(middle -> within(middle, wide))
            .min(Comparator.comparingDouble(this::covered))
            .orElseThrow();
    taken.add(best);
    return best.middle();
  }

  /** A line that labels should leave free. */
  void keepClear(Point from, Point to) {
    for (int i = 0; i <= PIECES_OF_A_LINE; i++) {
      double part = (double) i / PIECES_OF_A_LINE;
      Point place =
          new Point(from.x() + (to.x() - from.x()) * part, from.y() + (to.y() - from.y()) * part);
      taken.add(Box.around(place, END, END));
    }
  }

  private Stream<Point> candidates(Point from, Point to, double wide) {
    double middleX = (from.x() + to.x()) / 2;
    double middleY = (from.y() + to.y()) / 2;
    List<Point> places = new ArrayList<>();
    for (int ring = 1; ring <= 4; ring++) {
      for (int turn = 0; turn < 8; turn++) {
        double angle = Math.PI / 4 * turn;
        double dx = Math.cos(angle) * (wide / 2 + 12 * ring);
        double dy = Math.sin(angle) * LINE * ring;
        places.add(new Point(middleX + dx, middleY + dy));
        places.add(new Point(to.x() + dx, to.y() + dy));
      }
    }
    return places.stream();
  }

  private Box within(Point middle, double wide) {
    double x = Math.min(Math.max(middle.x(), wide / 2), width - wide / 2);
    double y = Math.min(Math.max(middle.y(), LINE / 2), height - LINE / 2);
    return Box.around(new Point(x, y), wide, LINE);
  }

  private double covered(Box box) {
    return taken.stream().mapToDouble(box::shared).sum();
  }
}
