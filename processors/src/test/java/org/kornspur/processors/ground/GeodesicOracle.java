package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicLine;
import net.sf.geographiclib.GeodesicMask;

/**
 * Distance between two outlines by brute force with GeographicLib alone, without projection. For
 * every pair of geodesic edges that can be nearer than the nearest corners, the inverse problem is
 * solved twice over: on a grid of places on both, then on finer grids around the best (which copes
 * with edges that run beside each other and have two least distances), and by golden sections over
 * both edges at once (which copes with edges that cross at a small angle). The lesser counts.
 */
final class GeodesicOracle {
  private static final int STEPS = 16;
  private static final int ZOOMS = 7;
  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

  private GeodesicOracle() {}

  static double boundaryDistanceM(Outline first, Outline second) {
    List<GeodesicLine> edges = edges(first);
    List<GeodesicLine> others = edges(second);
    double least = Double.POSITIVE_INFINITY;
    for (GeodesicLine edge : edges) {
      for (GeodesicLine other : others) {
        least = Math.min(least, distanceM(edge.Position(0), other.Position(0)));
      }
    }
    for (GeodesicLine edge : edges) {
      for (GeodesicLine other : others) {
        if (leastPossibleM(edge, other) < least) {
          least = Math.min(least, byGrid(edge, other));
          least = Math.min(least, byGoldenSections(edge, other));
        }
      }
    }
    return least;
  }

  /** From middle to middle less half of each edge: the triangle inequality. */
  private static double leastPossibleM(GeodesicLine first, GeodesicLine second) {
    double halves = (first.Distance() + second.Distance()) / 2;
    return distanceM(first.Position(first.Distance() / 2), second.Position(second.Distance() / 2))
        - halves;
  }

  private static double byGoldenSections(GeodesicLine first, GeodesicLine second) {
    return goldenSection(
        first.Distance(),
        onFirst -> {
          GeodesicData place = first.Position(onFirst);
          return goldenSection(
              second.Distance(), onSecond -> distanceM(place, second.Position(onSecond)));
        });
  }

  private static double goldenSection(double length, DoubleUnaryOperator distance) {
    double from = 0;
    double to = length;
    double low = to - (to - from) * GOLDEN;
    double high = from + (to - from) * GOLDEN;
    double atLow = distance.applyAsDouble(low);
    double atHigh = distance.applyAsDouble(high);
    while (to - from > 1e-4) {
      if (atLow < atHigh) {
        to = high;
        high = low;
        atHigh = atLow;
        low = to - (to - from) * GOLDEN;
        atLow = distance.applyAsDouble(low);
      } else {
        from = low;
        low = high;
        atLow = atHigh;
        high = from + (to - from) * GOLDEN;
        atHigh = distance.applyAsDouble(high);
      }
    }
    return Math.min(atLow, atHigh);
  }

  /**
   * Whether a place lies inside: seen from it, the azimuths to the corners of a ring go once round.
   */
  static boolean contains(Outline outline, GeoPosition place) {
    boolean inside = isInside(outline.corners(), place);
    for (List<GeoPosition> hole : outline.holes()) {
      inside &= !isInside(hole, place);
    }
    return inside;
  }

  private static boolean isInside(List<GeoPosition> ring, GeoPosition place) {
    double turnedDeg = 0;
    for (int i = 0; i < ring.size(); i++) {
      double from = azimuthDeg(place, ring.get(i));
      double to = azimuthDeg(place, ring.get((i + 1) % ring.size()));
      turnedDeg += Math.IEEEremainder(to - from, 360);
    }
    return Math.abs(turnedDeg) > 180;
  }

  private static double azimuthDeg(GeoPosition from, GeoPosition to) {
    return Geodesic.WGS84.Inverse(from.lat(), from.lon(), to.lat(), to.lon()).azi1;
  }

  static double distanceM(GeoPosition first, GeoPosition second) {
    return Geodesic.WGS84.Inverse(first.lat(), first.lon(), second.lat(), second.lon()).s12;
  }

  private static List<GeodesicLine> edges(Outline outline) {
    List<List<GeoPosition>> rings = new ArrayList<>(outline.holes());
    rings.add(outline.corners());
    List<GeodesicLine> edges = new ArrayList<>();
    for (List<GeoPosition> ring : rings) {
      for (int i = 0; i < ring.size(); i++) {
        GeoPosition a = ring.get(i);
        GeoPosition b = ring.get((i + 1) % ring.size());
        edges.add(Geodesic.WGS84.InverseLine(a.lat(), a.lon(), b.lat(), b.lon()));
      }
    }
    return edges;
  }

  private static double byGrid(GeodesicLine first, GeodesicLine second) {
    double firstFrom = 0;
    double firstTo = first.Distance();
    double secondFrom = 0;
    double secondTo = second.Distance();
    double least = Double.POSITIVE_INFINITY;
    for (int zoom = 0; zoom < ZOOMS; zoom++) {
      double firstStep = (firstTo - firstFrom) / STEPS;
      double secondStep = (secondTo - secondFrom) / STEPS;
      List<GeodesicData> onFirst = places(first, firstFrom, firstStep);
      List<GeodesicData> onSecond = places(second, secondFrom, secondStep);
      int bestFirst = 0;
      int bestSecond = 0;
      double best = Double.POSITIVE_INFINITY;
      for (int i = 0; i <= STEPS; i++) {
        for (int j = 0; j <= STEPS; j++) {
          double distance = distanceM(onFirst.get(i), onSecond.get(j));
          if (distance < best) {
            best = distance;
            bestFirst = i;
            bestSecond = j;
          }
        }
      }
      least = Math.min(least, best);
      double firstAt = firstFrom + bestFirst * firstStep;
      double secondAt = secondFrom + bestSecond * secondStep;
      firstFrom = Math.max(0, firstAt - 2 * firstStep);
      firstTo = Math.min(first.Distance(), firstAt + 2 * firstStep);
      secondFrom = Math.max(0, secondAt - 2 * secondStep);
      secondTo = Math.min(second.Distance(), secondAt + 2 * secondStep);
    }
    return least;
  }

  private static List<GeodesicData> places(GeodesicLine line, double fromM, double stepM) {
    List<GeodesicData> places = new ArrayList<>();
    for (int i = 0; i <= STEPS; i++) {
      places.add(line.Position(fromM + i * stepM));
    }
    return places;
  }

  private static double distanceM(GeodesicData first, GeodesicData second) {
    return Geodesic.WGS84.Inverse(
            first.lat2, first.lon2, second.lat2, second.lon2, GeodesicMask.DISTANCE)
        .s12;
  }
}
