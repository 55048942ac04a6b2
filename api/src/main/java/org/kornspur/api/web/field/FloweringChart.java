package org.kornspur.api.web.field;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.web.field.CropSurroundings.Source;
import org.kornspur.processors.ground.FloweringOverlap;
import org.kornspur.processors.ground.FloweringWindow;

/**
 * Flowering of the crop and shedding of the sources as bars over days. An end that nobody knows is
 * drawn open, to the edge.
 *
 * @param width of the view box
 * @param height of the view box
 * @param days marks of the axis
 * @param rows the crop first, then the sources by letter
 * @param cropFrom x at which the crop's flowering begins; empty where unknown
 * @param cropTo x at which it has ended; empty where unknown
 */
public record FloweringChart(
    int width,
    int height,
    List<Mark> days,
    List<Row> rows,
    Optional<Double> cropFrom,
    Optional<Double> cropTo) {
  private static final int WIDTH = 640;
  private static final int LEFT = 14;
  private static final int RIGHT = 626;
  private static final int HEAD = 40;
  private static final int ROW = 66;
  private static final int SPARE_DAYS = 2;
  private static final int MOST_MARKS = 5;

  /** A day on the axis. */
  public record Mark(LocalDate day, double x) {}

  /** A stretch of the axis. */
  public record Stretch(double x, double width) {}

  /**
   * One bar.
   *
   * @param source empty for the crop itself
   * @param y upper edge of the row
   * @param bar the whole bar
   * @param together the part in which crop and source flower together
   */
  public record Row(
      Optional<Source> source,
      FloweringWindow window,
      int y,
      Stretch bar,
      Optional<Stretch> together) {}

  /** Empty where not one day is known. */
  static Optional<FloweringChart> of(CropSurroundings ground) {
    FloweringWindow crop = ground.flowering();
    List<LocalDate> known =
        Stream.concat(
                Stream.of(crop), ground.sources().stream().filter(Source::told).map(Source::sheds))
            .flatMap(window -> Stream.of(window.from(), window.to()))
            .flatMap(Optional::stream)
            .sorted()
            .toList();
    return known.isEmpty()
        ? Optional.empty()
        : Optional.of(
            draw(
                ground,
                crop,
                new Axis(
                    known.get(0).minusDays(SPARE_DAYS),
                    known.get(known.size() - 1).plusDays(SPARE_DAYS))));
  }

  private static FloweringChart draw(CropSurroundings ground, FloweringWindow crop, Axis axis) {
    List<Row> rows = new ArrayList<>();
    rows.add(row(Optional.empty(), crop, HEAD, axis));
    for (Source source : ground.sources()) {
      if (source.told()) {
        rows.add(row(Optional.of(source), source.sheds(), HEAD + ROW * rows.size(), axis));
      }
    }
    return new FloweringChart(
        WIDTH,
        HEAD + ROW * rows.size() + 6,
        axis.marks(),
        List.copyOf(rows),
        crop.from().map(axis::begin),
        crop.to().map(axis::end));
  }

  private static Row row(Optional<Source> source, FloweringWindow window, int y, Axis axis) {
    return new Row(
        source,
        window,
        y,
        axis.stretch(window.from(), window.to()),
        source.flatMap(known -> together(known.meeting(), axis)));
  }

  private static Optional<Stretch> together(FloweringOverlap meeting, Axis axis) {
    if (meeting instanceof FloweringOverlap.Together both) {
      return Optional.of(axis.stretch(Optional.of(both.from()), Optional.of(both.to())));
    }
    if (meeting instanceof FloweringOverlap.Assumed assumed) {
      return Optional.of(axis.stretch(assumed.from(), assumed.to()));
    }
    return Optional.empty();
  }

  private record Axis(LocalDate first, LocalDate last) {

    double begin(LocalDate day) {
      double days = ChronoUnit.DAYS.between(first, last) + 1.0;
      return LEFT + (RIGHT - LEFT) * ChronoUnit.DAYS.between(first, day) / days;
    }

    double end(LocalDate day) {
      return begin(day.plusDays(1));
    }

    Stretch stretch(Optional<LocalDate> from, Optional<LocalDate> to) {
      double x = from.map(this::begin).orElse((double) LEFT);
      return new Stretch(x, to.map(this::end).orElse((double) RIGHT) - x);
    }

    List<Mark> marks() {
      long days = ChronoUnit.DAYS.between(first, last) + 1;
      long step = Math.max(1, (days + MOST_MARKS - 1) / MOST_MARKS);
      List<Mark> marks = new ArrayList<>();
      for (LocalDate day = first;
          !day.isAfter(last.minusDays(step / 2));
          day = day.plusDays(step)) {
        marks.add(new Mark(day, begin(day)));
      }
      return marks;
    }
  }
}
