package org.kornspur.processors.ground;

import java.util.ArrayList;
import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicLine;
import net.sf.geographiclib.GeodesicMask;
import org.kornspur.processors.dossier.Report.GeoPosition;

/**
 * Distance between two outlines by brute force with GeographicLib alone, without projection: for
 * every pair of geodesic edges the inverse problem over a grid of places on both, then on finer
 * grids around the best, down to less than a millimetre.
 */
final class GeodesicOracle {
  private static final int STEPS = 16;
  private static final int ZOOMS = 7;

  private GeodesicOracle() {}

  static double boundaryDistanceM(Outline first, Outline second) {
    double least = Double.POSITIVE_INFINITY;
    for (GeodesicLine edge : edges(first)) {
      for (GeodesicLine other : edges(second)) {
        least = Math.min(least, distanceM(edge, other));
      }
    }
    return least;
  }

  /** Whether a place lies inside, by the number of edges met on the way east from it. */
  static boolean contains(Outline outline, GeoPosition place) {
    boolean inside = isInside(outline.corners(), place);
    for (List<GeoPosition> hole : outline.holes()) {
      inside &= !isInside(hole, place);
    }
    return inside;
  }

  private static boolean isInside(List<GeoPosition> ring, GeoPosition place) {
    boolean inside = false;
    for (int i = 0; i < ring.size(); i++) {
      GeoPosition a = ring.get(i);
      GeoPosition b = ring.get((i + 1) % ring.size());
      double aLon = Math.IEEEremainder(a.lon() - place.lon(), 360);
      double bLon = Math.IEEEremainder(b.lon() - place.lon(), 360);
      if ((a.lat() > place.lat()) != (b.lat() > place.lat())
          && aLon + (place.lat() - a.lat()) / (b.lat() - a.lat()) * (bLon - aLon) > 0) {
        inside = !inside;
      }
    }
    return inside;
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

  private static double distanceM(GeodesicLine first, GeodesicLine second) {
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
