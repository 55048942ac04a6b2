package org.kornspur.processors.stream;

import java.util.SortedSet;
import java.util.TreeSet;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.Topology;
import org.kornspur.processors.ground.IsolationCells;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.standards.Rulebooks;

/**
 * Brings crops and pollen sources together that lie near each other in one crop year. A source is
 * sent to the grid cells that it touches, a seed crop to those in its reach as well; within a cell
 * every crop is held against every foreign source, and the crop is told what is near. Rye is sent
 * to the same ground of the years after it too, so that a crop is told what stood there before.
 */
public final class IsolationJoin {
  /** How far the ground looks around a crop, metres. */
  public static final double REACH_M = Rulebooks.WIDEST_DISTANCE_M;

  /** How many years back a crop is told of rye on its own ground. */
  static final int YEARS_BACK = Rulebooks.MOST_YEARS_BACK;

  static final String PLOTS = "plots";
  static final String FIND_NEIGHBOURS = "find-neighbours";
  static final String TO_CROPS = "to-crops";

  private final StateStores stores;
  private final int cellsInMemory;

  IsolationJoin(StateStores stores) {
    this(stores, NeighbourFinder.CELLS_IN_MEMORY);
  }

  IsolationJoin(StateStores stores, int cellsInMemory) {
    this.stores = stores;
    this.cellsInMemory = cellsInMemory;
  }

  /** Cells that are to know of a plot, wherever it is reported to lie. */
  static SortedSet<String> cellsOf(Plot plot) {
    SortedSet<String> cells = new TreeSet<>();
    for (Plot reported : plot.reports()) {
      Outline outline = Outline.ofPositions(reported.outline());
      cells.addAll(
          reported.isSeedCrop()
              ? IsolationCells.cellsWithin(outline, REACH_M, reported.cropYear())
              : IsolationCells.cellsOf(outline, reported.cropYear()));
      if (reported.isRyeCrop()) {
        for (int years = 1; years <= YEARS_BACK; years++) {
          cells.addAll(IsolationCells.cellsOf(outline, reported.cropYear() + years));
        }
      }
    }
    return cells;
  }

  void addTo(Topology topology) {
    Topics.PLOTS.addSource(topology, PLOTS, Topics.plots());
    topology
        .addProcessor(FIND_NEIGHBOURS, () -> new NeighbourFinder(cellsInMemory), PLOTS)
        .addStateStore(
            stores.logged(StateStores.CELL_PLOTS, InternalSerdes.serde(Plot.class)),
            FIND_NEIGHBOURS)
        .addStateStore(stores.logged(StateStores.CELL_OUTBOX, Serdes.ByteArray()), FIND_NEIGHBOURS);
    Topics.REPORTS.addSink(topology, TO_CROPS, Topics.reports().serializer(), FIND_NEIGHBOURS);
  }
}
