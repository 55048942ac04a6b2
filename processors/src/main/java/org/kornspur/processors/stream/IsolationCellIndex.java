package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.PollenNearby;
import org.kornspur.processors.dossier.Report.EarlierRye;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.dossier.Report.OnSameGround;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.OutlineDistance;
import org.kornspur.processors.ground.OutlineOverlap;
import org.kornspur.processors.ground.Plot;

/**
 * The plots of one cell and which of them are near each other. It can be made again at any time
 * from the plots alone; kept between changes, it saves measuring again what did not move: a changed
 * plot is measured against the others and nothing else is.
 */
final class IsolationCellIndex {
  private static final Comparator<Neighbour> NEAREST_FIRST =
      Comparator.comparingDouble(Neighbour::distanceM)
          .thenComparing(Neighbour::source)
          .thenComparing(Neighbour::factId);

  private static final Comparator<EarlierRye> LATEST_FIRST =
      Comparator.comparingInt(EarlierRye::cropYear)
          .reversed()
          .thenComparing(EarlierRye::rye)
          .thenComparing(EarlierRye::factId);

  private static final Comparator<OnSameGround> BY_CROP =
      Comparator.comparing(OnSameGround::crop).thenComparing(OnSameGround::factId);

  private final int year;
  private final Map<Subject, Placed> placed = new HashMap<>();
  private final Map<Subject, Map<Subject, Nearby>> nearCrop = new HashMap<>();

  private IsolationCellIndex(int year) {
    this.year = year;
  }

  /**
   * What one crop or source is to a crop: pollen near it, rye on its ground before it, or a crop on
   * its ground beside it.
   */
  private record Nearby(
      List<Neighbour> near, List<EarlierRye> earlier, List<OnSameGround> sameGround) {
    boolean isNothing() {
      return near.isEmpty() && earlier.isEmpty() && sameGround.isEmpty();
    }
  }

  /** A plot with all that is reported of where it lies; the first is what the plot itself says. */
  private record Placed(Plot plot, List<Reported> reports) {
    static Placed of(Plot plot) {
      return new Placed(plot, plot.reports().stream().map(Reported::of).toList());
    }

    Outline outline() {
      return reports.get(0).outline();
    }
  }

  private record Reported(Plot plot, Outline outline, double areaHa) {
    static Reported of(Plot plot) {
      Outline outline = Outline.ofPositions(plot.outline());
      return new Reported(plot, outline, Area.hectares(outline));
    }
  }

  /**
   * The ground of a cell.
   *
   * @param year crop year of the cell; plots of earlier years are those that stood there before
   */
  static IsolationCellIndex of(int year, Collection<Plot> plots) {
    IsolationCellIndex ground = new IsolationCellIndex(year);
    plots.forEach(plot -> ground.change(plot.subject(), Optional.of(plot)));
    return ground;
  }

  /**
   * Puts a plot in the place of the one that its subject had.
   *
   * @param plot the plot; empty where it left the cell
   * @return crops whose neighbours may have changed, its own among them if it is or was one
   */
  SortedSet<Subject> change(Subject subject, Optional<Plot> plot) {
    SortedSet<Subject> touched = new TreeSet<>();
    if (placed.remove(subject) != null && nearCrop.remove(subject) != null) {
      touched.add(subject);
    }
    nearCrop.forEach(
        (crop, near) -> {
          if (near.remove(subject) != null) {
            touched.add(crop);
          }
        });
    plot.ifPresent(now -> touched.addAll(place(now)));
    return touched;
  }

  /** Foreign pollen within reach of a crop, nearest first; none where the crop is not here. */
  List<Neighbour> near(Subject crop) {
    return nearCrop.getOrDefault(crop, Map.of()).values().stream()
        .flatMap(found -> found.near().stream())
        .sorted(NEAREST_FIRST)
        .toList();
  }

  /** Rye of earlier years on a crop's ground, the latest first. */
  List<EarlierRye> earlier(Subject crop) {
    return nearCrop.getOrDefault(crop, Map.of()).values().stream()
        .flatMap(found -> found.earlier().stream())
        .sorted(LATEST_FIRST)
        .toList();
  }

  /** Other seed crops of the year on a crop's ground. */
  List<OnSameGround> sameGround(Subject crop) {
    return nearCrop.getOrDefault(crop, Map.of()).values().stream()
        .flatMap(found -> found.sameGround().stream())
        .sorted(BY_CROP)
        .toList();
  }

  private SortedSet<Subject> place(Plot plot) {
    SortedSet<Subject> touched = new TreeSet<>();
    Placed here = Placed.of(plot);
    if (isCropOfCell(plot)) {
      nearCrop.put(plot.subject(), new HashMap<>());
      touched.add(plot.subject());
    }
    for (Placed other : placed.values()) {
      hold(here, other, touched);
      hold(other, here, touched);
    }
    placed.put(plot.subject(), here);
    return touched;
  }

  private boolean isCropOfCell(Plot plot) {
    return plot.isSeedCrop() && plot.cropYear() == year;
  }

  private void hold(Placed crop, Placed source, SortedSet<Subject> touched) {
    if (!isCropOfCell(crop.plot())) {
      return;
    }
    List<Neighbour> near = new ArrayList<>();
    List<EarlierRye> earlier = new ArrayList<>();
    List<OnSameGround> sameGround = new ArrayList<>();
    for (Reported reported : source.reports()) {
      if (reported.plot().cropYear() < year) {
        earlier(crop, reported).ifPresent(earlier::add);
        continue;
      }
      sameGround(crop, reported).ifPresent(sameGround::add);
      if (crop.plot().isThreatenedBy(reported.plot())) {
        OutlineDistance separation = OutlineDistance.between(crop.outline(), reported.outline());
        if (separation.distanceM() <= IsolationJoin.REACH_M) {
          near.add(PollenNearby.of(crop.plot(), reported.plot(), reported.areaHa(), separation));
        }
      }
    }
    Nearby nearby = new Nearby(List.copyOf(near), List.copyOf(earlier), List.copyOf(sameGround));
    if (!nearby.isNothing()) {
      nearCrop.get(crop.plot().subject()).put(source.plot().subject(), nearby);
      touched.add(crop.plot().subject());
    }
  }

  private static Optional<OnSameGround> sameGround(Placed crop, Reported reported) {
    Plot other = reported.plot();
    double hectares =
        other.isSeedCrop() ? OutlineOverlap.hectares(crop.outline(), reported.outline()) : 0;
    return hectares > 0
        ? Optional.of(
            new OnSameGround(other.subject(), hectares, reported.areaHa(), other.factId()))
        : Optional.empty();
  }

  private static Optional<EarlierRye> earlier(Placed crop, Reported reported) {
    Plot rye = reported.plot();
    double hectares =
        rye.isRyeCrop() ? OutlineOverlap.hectares(crop.outline(), reported.outline()) : 0;
    return hectares > 0
        ? Optional.of(
            new EarlierRye(rye.subject(), rye.cropYear(), hectares, rye.factId(), rye.reportedBy()))
        : Optional.empty();
  }
}
