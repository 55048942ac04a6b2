package org.kornspur.processors.ground;

import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.Set;
import org.kornspur.processors.ground.InvalidOutline.Fault;

/**
 * A fixed grid over the earth by which a stream brings a crop together with the pollen sources near
 * it. Cells are about 5 km high and wide: 4,000 rows of 0.045° from the South Pole, and in each as
 * many columns from 180° west as are at least that wide on its poleward side. A cell is named
 * {@code cell:<cropYear>:<row>:<col>}.
 *
 * <p>For any two outlines of one year no more than {@code reachM} apart, {@code cellsWithin(a,
 * reachM, year)} and {@code cellsOf(b, year)} have a cell in common. The converse does not hold:
 * who shares a cell may still be too far away, and the distance must be computed.
 */
public final class IsolationCells {
  /** No cells are made poleward of this latitude, degrees; rye grows nowhere near. */
  public static final double MAX_LATITUDE_DEG = 85;

  /** The farthest reach for which cells are listed, metres. */
  public static final double MAX_REACH_M = 50_000;

  private static final int ROWS = 4_000;
  private static final double ROW_HEIGHT_DEG = 180.0 / ROWS;

  private IsolationCells() {}

  /**
   * The crop year of a cell.
   *
   * @throws IllegalArgumentException if it is not the name of a cell
   */
  public static int yearOf(String cell) {
    String[] parts = cell.split(":", -1);
    if (parts.length < 3 || !parts[0].equals("cell")) {
      throw new IllegalArgumentException("Not the name of a cell");
    }
    return Integer.parseInt(parts[1]);
  }

  /**
   * The cells that the outline's bounding box touches.
   *
   * @throws InvalidOutline if a corner lies poleward of {@link #MAX_LATITUDE_DEG}
   */
  public static Set<String> cellsOf(Outline outline, int cropYear) {
    checkLatitude(outline);
    return cells(outline.bounds(), cropYear);
  }

  /**
   * The cells within reach of the outline: all in which something may lie that is no more than
   * {@code reachM} metres away.
   *
   * @param reachM metres, from 0 to {@link #MAX_REACH_M}
   * @throws InvalidOutline if a corner lies poleward of {@link #MAX_LATITUDE_DEG}
   * @throws IllegalArgumentException if the reach is out of its limits
   */
  public static Set<String> cellsWithin(Outline outline, double reachM, int cropYear) {
    checkLatitude(outline);
    checkReach(reachM);
    return cells(outline.bounds().widenedBy(reachM), cropYear);
  }

  static void checkLatitude(Outline outline) {
    for (GeoPosition corner : outline.corners()) {
      if (Math.abs(corner.lat()) > MAX_LATITUDE_DEG) {
        throw new InvalidOutline(
            Fault.POLAR,
            corner,
            "The outline has a corner at latitude %s; isolation is judged from -85 to 85 degrees only, rye grows nowhere poleward of that. Check the latitude, and whether longitude and latitude are exchanged."
                .formatted(corner.lat()));
      }
    }
  }

  static void checkReach(double reachM) {
    if (!(reachM >= 0 && reachM <= MAX_REACH_M)) {
      throw new IllegalArgumentException(
          "A reach of %s m is outside 0 to %.0f m. Give the widest isolation distance of the rulebooks, in metres."
              .formatted(reachM, MAX_REACH_M));
    }
  }

  private static Set<String> cells(Bounds bounds, int cropYear) {
    Set<String> cells = new LinkedHashSet<>();
    for (int row = row(bounds.south()); row <= row(bounds.north()); row++) {
      int columns = columnsOf(row);
      int west = (int) Math.floor((bounds.west() + 180) / 360 * columns);
      int east = (int) Math.floor((bounds.east() + 180) / 360 * columns);
      for (int column = west; column <= Math.min(east, west + columns - 1); column++) {
        cells.add("cell:%d:%d:%d".formatted(cropYear, row, Math.floorMod(column, columns)));
      }
    }
    return Collections.unmodifiableSet(cells);
  }

  private static int row(double latDeg) {
    return Math.min(ROWS - 1, (int) Math.floor((latDeg + 90) / ROW_HEIGHT_DEG));
  }

  private static int columnsOf(int row) {
    double southDeg = -90 + row * ROW_HEIGHT_DEG;
    double polewardDeg = Math.max(Math.abs(southDeg), Math.abs(southDeg + ROW_HEIGHT_DEG));
    double rowLengthDeg = 360 * Math.cos(Math.toRadians(polewardDeg));
    return Math.max(1, (int) Math.floor(rowLengthDeg / ROW_HEIGHT_DEG));
  }
}
