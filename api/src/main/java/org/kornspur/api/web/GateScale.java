package org.kornspur.api.web;

import java.util.Optional;
import java.util.stream.DoubleStream;
import org.kornspur.api.query.view.GateView;
import org.kornspur.api.query.view.LimitView;
import org.kornspur.api.text.LocalFormat;

/**
 * A gate drawn to scale: the value and what it may truly be, against the limit. All positions are
 * whole pixels from the left of a drawing {@link #WIDTH} wide.
 *
 * @param value where the value stands
 * @param limit where the limit stands
 * @param brokenFrom where the side on which the limit is broken begins
 * @param brokenWidth how wide that side is
 * @param interval the interval; empty where the value is exact
 * @param least label of the left end
 * @param most label of the right end
 * @param text all of it in words
 */
public record GateScale(
    int value,
    int limit,
    int brokenFrom,
    int brokenWidth,
    Optional<Span> interval,
    String least,
    String most,
    String text) {

  /** Width of the drawing, pixels. */
  public static final int WIDTH = 320;

  private static final int EDGE = 10;

  /** From and to, pixels. */
  public record Span(int from, int to) {}

  /**
   * The drawing of a gate.
   *
   * @param text all of it in words
   * @return empty where there is no value or no limit
   */
  static Optional<GateScale> of(GateView gate, LocalFormat form, String text) {
    if (gate.value() == null || gate.limit() == null) {
      return Optional.empty();
    }
    LimitView limit = gate.limit();
    Range range = Range.of(gate, limit.value());
    int at = range.pixel(limit.value());
    boolean low = limit.sense().equals("AT_LEAST");
    return Optional.of(
        new GateScale(
            range.pixel(gate.value()),
            at,
            low ? EDGE : at,
            low ? at - EDGE : WIDTH - EDGE - at,
            Optional.ofNullable(gate.interval())
                .map(
                    interval ->
                        new Span(range.pixel(interval.lower()), range.pixel(interval.upper()))),
            form.measure(range.least(), gate.unit()),
            form.measure(range.most(), gate.unit()),
            text));
  }

  /** What the drawing spans, in the unit of the gate. */
  private record Range(double least, double most) {

    static Range of(GateView gate, double limit) {
      double[] shown =
          gate.interval() == null
              ? new double[] {gate.value(), limit}
              : new double[] {
                gate.value(), limit, gate.interval().lower(), gate.interval().upper()
              };
      double least = DoubleStream.of(shown).min().orElseThrow();
      double most = DoubleStream.of(shown).max().orElseThrow();
      double room = most > least ? (most - least) * 0.25 : Math.max(1, Math.abs(limit)) * 0.25;
      boolean isPercent = gate.unit().equals("%");
      double step = Math.pow(10, Math.floor(Math.log10(most - least + 2 * room)));
      double from = Math.floor((least - room) / step) * step;
      double to = Math.ceil((most + room) / step) * step;
      return new Range(
          least >= 0 ? Math.max(0, from) : from, isPercent && most <= 100 ? Math.min(100, to) : to);
    }

    int pixel(double value) {
      double share = (value - least) / (most - least);
      return EDGE + (int) Math.round(Math.max(0, Math.min(1, share)) * (WIDTH - 2 * EDGE));
    }
  }
}
