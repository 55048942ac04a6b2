package org.kornspur.api.web.field;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.kornspur.api.web.field.SvgPath.Point;
import org.kornspur.processors.advice.InspectionAdvice.Count;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.statistics.SamplingPlan;

/**
 * The acceptance curve of a count: with what probability the plan of fixed size accepts a crop, by
 * the crop's true share of bad plants (its operating characteristic, by the exact binomial); and
 * where the count so far stands, with its exact interval.
 *
 * @param plan units to examine and acceptance number
 * @param curve path of the curve
 * @param limitX where the limit stands on the axis
 * @param tooBadX where the share stands that is certainly too bad
 * @param observed where the count so far stands; empty before the first count
 * @param across marks of the axis of shares, left to right
 * @param table shares with the probability of acceptance, for who reads no drawing
 */
public record AcceptanceCurve(
    Count count,
    SamplingPlan plan,
    String curve,
    double limitX,
    double tooBadX,
    Optional<Observed> observed,
    List<Mark> across,
    List<Row> table) {
  static final int LEFT = 84;
  static final int RIGHT = 624;
  static final int TOP = 44;
  static final int FOOT = 330;

  private static final int PIECES = 80;
  private static final int MARKS = 4;
  private static final double PLANTS_OF_A_HUNDRED = 100;

  /** A share on the axis, in the unit of the axis. */
  public record Mark(double value, double x) {}

  /** A probability on the axis. */
  public record Level(double acceptance, double y) {}

  /** What was counted: share and exact interval in the unit of the axis, and as x. */
  public record Observed(
      double value,
      double lower,
      double upper,
      double x,
      double fromX,
      double toX,
      boolean goesOn) {}

  /** A share in the unit of the axis, with the probability of acceptance. */
  public record Row(double value, double acceptance) {}

  static Optional<AcceptanceCurve> of(Count count) {
    return count.fixed().map(plan -> draw(count, plan));
  }

  /** Whether the axis is in plants for each square metre; else in plants of a hundred. */
  public boolean byArea() {
    return count.limit().quantity() == Quantity.OFF_TYPES_BY_AREA;
  }

  private static AcceptanceCurve draw(Count count, SamplingPlan plan) {
    double most =
        Math.min(
            1,
            Math.max(
                2 * count.rejectable(),
                Math.min(
                    4 * count.rejectable(), count.observed().map(i -> i.upper()).orElse(0.0))));
    DoubleUnaryOperator x = share -> LEFT + (RIGHT - LEFT) * Math.min(1, share / most);
    double factor = factor(count);
    List<Point> points = new ArrayList<>();
    for (int i = 0; i <= PIECES; i++) {
      double share = most * i / PIECES;
      points.add(new Point(x.applyAsDouble(share), y(plan.acceptanceProbability(share))));
    }
    List<Mark> across = new ArrayList<>();
    for (int i = 0; i <= MARKS; i++) {
      double share = most * i / MARKS;
      across.add(new Mark(share * factor, x.applyAsDouble(share)));
    }
    List<Row> table = new ArrayList<>();
    for (double times : new double[] {0.25, 0.5, 1, 1.5, 2, 3}) {
      double share = Math.min(1, times * count.acceptable());
      table.add(new Row(share * factor, plan.acceptanceProbability(share)));
    }
    return new AcceptanceCurve(
        count,
        plan,
        SvgPath.line(points),
        x.applyAsDouble(count.acceptable()),
        x.applyAsDouble(count.rejectable()),
        count
            .observed()
            .map(
                interval -> {
                  double share = (double) count.bad() / count.unitsCounted();
                  return new Observed(
                      share * factor,
                      interval.lower() * factor,
                      interval.upper() * factor,
                      x.applyAsDouble(share),
                      x.applyAsDouble(interval.lower()),
                      x.applyAsDouble(interval.upper()),
                      interval.upper() > most);
                }),
        List.copyOf(across),
        List.copyOf(table));
  }

  /** Marks of the axis of probabilities. */
  public List<Level> levels() {
    return Stream.of(0.0, 0.25, 0.5, 0.75, 0.95).map(p -> new Level(p, y(p))).toList();
  }

  /** Where the curve stands at the limit. */
  public double limitY() {
    return y(plan.acceptanceProbability(count.acceptable()));
  }

  /** Where the curve stands at the share that is certainly too bad. */
  public double tooBadY() {
    return y(plan.acceptanceProbability(count.rejectable()));
  }

  private static double y(double probability) {
    return FOOT - (FOOT - TOP) * probability;
  }

  /** From a share of units to the unit of the axis. */
  private static double factor(Count count) {
    return count.limit().quantity() == Quantity.OFF_TYPES_BY_AREA
        ? count.limit().value() / count.acceptable()
        : PLANTS_OF_A_HUNDRED;
  }
}
