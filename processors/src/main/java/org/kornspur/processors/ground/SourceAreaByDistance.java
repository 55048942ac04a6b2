package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.processors.statistics.SourceExtent;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;
import org.locationtech.jts.simplify.TopologyPreservingSimplifier;
import org.locationtech.jts.triangulate.polygon.ConstrainedDelaunayTriangulator;

/**
 * What area of a source lies how far from a crop, on the mean over the crop. The integral of any
 * pollen kernel over both outlines follows from it, so that a simulation need not go over the
 * ground again in each run.
 *
 * <p>Both outlines are cut into triangles. A pair of triangles is halved at its longest edge until
 * their longest edges together are at most 0.7 of how far their middles are apart; each then stands
 * by the middles of its three edges, a rule that is exact for polynomials of degree 2. Distances
 * are gathered in steps of {@value #STEP_PERCENT} %, each step with its logarithmic mean.
 *
 * <p>Error for a kernel that falls with power p far off, by the second term of its series in the
 * logarithm of the distance: the gathering is off by at most (p ln 1.1)² / 8 · 1.1^p, 1.4 % for p =
 * 3, and about a third of it where the area is spread evenly. Halving is off by less. Where the
 * outlines come within {@value #SMALLEST_M} m of each other, triangles of that size stand by their
 * middles; such a source is within a tenth.
 */
public final class SourceAreaByDistance {
  private static final int STEP_PERCENT = 10;
  private static final double STEP = Math.log1p(STEP_PERCENT / 100.0);
  private static final double MOST_OPEN = 0.7;
  private static final double SMALLEST_M = 2;
  private static final double NEAREST_M = 0.5;

  /** An outline of more corners is smoothed by a metre: that changes nothing but the time taken. */
  private static final int MOST_CORNERS = 100;

  private static final double SMOOTHED_M = 1;

  private final Optional<Wind> wind;
  private final List<double[]> steps = new ArrayList<>();

  private SourceAreaByDistance(Optional<Wind> wind) {
    this.wind = wind;
  }

  /** The extent of a source as the crop receives its pollen. */
  public static SourceExtent.ByDistance between(Outline source, Outline crop, Optional<Wind> wind) {
    LocalPlane plane = LocalPlane.midwayBetween(crop.corners().get(0), source.corners().get(0));
    Geometry from = smoothed(source.on(plane));
    Geometry to = smoothed(crop.on(plane));
    double shared = OverlayNGRobust.overlay(from, to, OverlayNG.INTERSECTION).getArea();
    Geometry beyond = shared == 0 ? from : OverlayNGRobust.overlay(from, to, OverlayNG.DIFFERENCE);
    SourceAreaByDistance distances = new SourceAreaByDistance(wind);
    List<Triangle> crops = triangles(to);
    for (Triangle shedding : triangles(beyond)) {
      crops.forEach(receiving -> distances.add(shedding, receiving));
    }
    return new SourceExtent.ByDistance(shared / to.getArea(), distances.parts(to.getArea()));
  }

  private static Geometry smoothed(Geometry area) {
    return area.getNumPoints() > MOST_CORNERS
        ? TopologyPreservingSimplifier.simplify(area, SMOOTHED_M)
        : area;
  }

  private static List<Triangle> triangles(Geometry area) {
    if (area.isEmpty()) {
      return List.of();
    }
    Geometry cut = ConstrainedDelaunayTriangulator.triangulate(area);
    List<Triangle> triangles = new ArrayList<>();
    for (int i = 0; i < cut.getNumGeometries(); i++) {
      Coordinate[] corners = cut.getGeometryN(i).getCoordinates();
      triangles.add(new Triangle(corners[0], corners[1], corners[2]));
    }
    return triangles;
  }

  private void add(Triangle shedding, Triangle receiving) {
    double largest = Math.max(shedding.longestM, receiving.longestM);
    double apart = shedding.middle.distance(receiving.middle);
    if (shedding.longestM + receiving.longestM <= MOST_OPEN * apart) {
      for (Coordinate from : shedding.edgeMiddles) {
        for (Coordinate to : receiving.edgeMiddles) {
          add(from, to, shedding.areaM2 * receiving.areaM2 / 9);
        }
      }
    } else if (largest <= SMALLEST_M) {
      add(shedding.middle, receiving.middle, shedding.areaM2 * receiving.areaM2);
    } else if (shedding.longestM >= receiving.longestM) {
      shedding.halves().forEach(half -> add(half, receiving));
    } else {
      receiving.halves().forEach(half -> add(shedding, half));
    }
  }

  private void add(Coordinate from, Coordinate to, double weight) {
    double felt =
        wind.isEmpty() ? weight : weight * wind.get().factor(to.x - from.x, to.y - from.y);
    double logarithm = Math.log(Math.max(NEAREST_M, from.distance(to)) / NEAREST_M);
    int step = (int) (logarithm / STEP);
    while (steps.size() <= step) {
      steps.add(new double[2]);
    }
    steps.get(step)[0] += felt;
    steps.get(step)[1] += felt * logarithm;
  }

  private List<SourceExtent.Part> parts(double cropM2) {
    return steps.stream()
        .filter(step -> step[0] > 0)
        .map(
            step ->
                new SourceExtent.Part(NEAREST_M * Math.exp(step[1] / step[0]), step[0] / cropM2))
        .toList();
  }

  /** A triangle whose first two corners end its longest edge. */
  private static final class Triangle {
    private final Coordinate a;
    private final Coordinate b;
    private final Coordinate c;
    private final Coordinate middle;
    private final List<Coordinate> edgeMiddles;
    private final double longestM;
    private final double areaM2;
    private List<Triangle> halves = List.of();

    Triangle(Coordinate one, Coordinate two, Coordinate three) {
      double first = one.distance(two);
      double second = two.distance(three);
      double third = three.distance(one);
      longestM = Math.max(first, Math.max(second, third));
      a = longestM == first ? one : longestM == second ? two : three;
      b = longestM == first ? two : longestM == second ? three : one;
      c = longestM == first ? three : longestM == second ? one : two;
      middle = new Coordinate((a.x + b.x + c.x) / 3, (a.y + b.y + c.y) / 3);
      edgeMiddles = List.of(between(a, b), between(b, c), between(c, a));
      areaM2 = Math.abs((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)) / 2;
    }

    /** Made once, for a triangle near the other field meets many there. */
    List<Triangle> halves() {
      if (halves.isEmpty()) {
        Coordinate cut = edgeMiddles.get(0);
        halves = List.of(new Triangle(a, cut, c), new Triangle(cut, b, c));
      }
      return halves;
    }

    private static Coordinate between(Coordinate one, Coordinate other) {
      return new Coordinate((one.x + other.x) / 2, (one.y + other.y) / 2);
    }
  }
}
