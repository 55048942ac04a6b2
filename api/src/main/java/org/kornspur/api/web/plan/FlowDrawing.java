package org.kornspur.api.web.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.query.plan.SeedFlow;
import org.kornspur.api.web.field.SvgPath;
import org.kornspur.api.web.field.SvgPath.Point;

/**
 * The drawing of how seed goes through the years: a column for each harvest, a row for each seed.
 * The width of a way grows with the logarithm of its kilograms, for a hybrid takes thousands of
 * times as much seed as its lines.
 *
 * @param width of the drawing, units of the screen
 * @param height of the drawing
 */
public record FlowDrawing(
    double width, double height, List<Year> years, List<Node> nodes, List<Way> ways) {
  private static final double LEFT = 150;
  private static final double COLUMN = 190;
  private static final double TOP = 34;
  private static final double ROW = 74;
  private static final double NODE_WIDTH = 104;
  private static final double NODE_HEIGHT = 40;

  /** The head of a column. */
  public record Year(int year, double x) {}

  /** The stock of a seed in a year. */
  public record Node(SeedFlow.Stock stock, double x, double y) {

    /** Where its words stand. */
    public double middle() {
      return x + NODE_WIDTH / 2;
    }
  }

  /**
   * A way from a stock to one of the next year.
   *
   * @param stroke its width
   */
  public record Way(SeedFlow.Flow flow, String path, double stroke) {}

  static FlowDrawing of(SeedFlow flow) {
    Map<String, Double> rows = new HashMap<>();
    for (int i = 0; i < flow.seeds().size(); i++) {
      rows.put(flow.seeds().get(i).seedId(), TOP + i * ROW);
    }
    int first = flow.years().get(0);
    List<Node> nodes = new ArrayList<>();
    for (SeedFlow.Stock stock : flow.stocks()) {
      nodes.add(new Node(stock, x(stock.year() - first), rows.get(stock.seedId())));
    }
    List<Way> ways = new ArrayList<>();
    for (SeedFlow.Flow one : flow.flows()) {
      ways.add(way(one, first, rows));
    }
    return new FlowDrawing(
        x(flow.years().size()),
        TOP + flow.seeds().size() * ROW,
        flow.years().stream()
            .map(year -> new Year(year, x(year - first) + NODE_WIDTH / 2))
            .toList(),
        List.copyOf(nodes),
        List.copyOf(ways));
  }

  private static double x(int column) {
    return LEFT + column * COLUMN;
  }

  private static Way way(SeedFlow.Flow flow, int first, Map<String, Double> rows) {
    double fromX = x(flow.fromYear() - first) + NODE_WIDTH;
    double toX = x(flow.fromYear() - first + 1);
    double fromY = rows.get(flow.fromSeedId()) + NODE_HEIGHT / 2;
    double toY = rows.get(flow.toSeedId()) + NODE_HEIGHT / 2;
    double bend = (toX - fromX) / 2;
    String path =
        SvgPath.line(List.of(new Point(fromX, fromY)))
            + "C"
            + List.of(fromX + bend, fromY, toX - bend, toY, toX, toY).stream()
                .map(SvgPath::number)
                .reduce((all, next) -> all + " " + next)
                .orElseThrow();
    return new Way(flow, path, Math.rint(10 * (1 + Math.max(0, Math.log10(flow.kg())))) / 10);
  }
}
