package org.kornspur.processors.stream;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.ground.Separation;

/** Holds the plots of a cell and tells each seed crop in it which foreign pollen is near. */
final class NeighbourFinder implements Processor<String, PlotChange, String, byte[]> {
  private KeyValueStore<String, Plot> plots;
  private Outbox outbox;

  @Override
  public void init(ProcessorContext<String, byte[]> context) {
    plots = context.getStateStore(Stores.CELL_PLOTS);
    outbox = new Outbox(context, context.getStateStore(Stores.CELL_OUTBOX));
  }

  @Override
  public void process(Record<String, PlotChange> record) {
    String cell = record.key();
    PlotChange change = record.value();
    String key = Keys.of(cell, change.subject());
    Optional<Plot> before = Optional.ofNullable(plots.get(key));
    if (before.equals(change.plot())) {
      return;
    }
    change.plot().ifPresentOrElse(plot -> plots.put(key, plot), () -> plots.delete(key));
    tellCrops(cell);
  }

  private void tellCrops(String cell) {
    List<Plot> inCell = plotsIn(cell);
    Map<Plot, Outline> outlines = new HashMap<>();
    inCell.forEach(plot -> outlines.put(plot, Outline.ofPositions(plot.outline())));
    SortedMap<String, Outbox.Letter> letters = new TreeMap<>();
    for (Plot crop : inCell) {
      List<Neighbour> near = neighboursOf(crop, inCell, outlines);
      if (!near.isEmpty()) {
        Report report = new Report.FromGround(cell, crop.subject(), near);
        letters.put(
            crop.subject().toString(),
            new Outbox.Letter(
                InternalJson.write(new ReportChange(cell, Optional.of(report))),
                Optional.of(InternalJson.write(new ReportChange(cell, Optional.empty())))));
      }
    }
    outbox.deliver(cell, IsolationJoin.TO_CROPS, letters);
  }

  private static List<Neighbour> neighboursOf(
      Plot crop, List<Plot> inCell, Map<Plot, Outline> outlines) {
    List<Neighbour> near = new ArrayList<>();
    for (Plot source : inCell) {
      if (crop.isThreatenedBy(source)) {
        Separation separation = Separation.between(outlines.get(crop), outlines.get(source));
        if (separation.distanceM() <= IsolationJoin.REACH_M) {
          near.add(neighbour(source, Area.hectares(outlines.get(source)), separation));
        }
      }
    }
    near.sort(Comparator.comparingDouble(Neighbour::distanceM).thenComparing(Neighbour::source));
    return near;
  }

  private static Neighbour neighbour(Plot source, double areaHa, Separation separation) {
    return new Neighbour(
        source.subject(),
        separation.distanceM(),
        areaHa,
        separation.onFirst(),
        separation.onSecond(),
        source.sourceKind(),
        source.sheddingFrom(),
        source.sheddingTo(),
        source.factId());
  }

  private List<Plot> plotsIn(String cell) {
    List<Plot> found = new ArrayList<>();
    try (KeyValueIterator<String, Plot> held =
        plots.prefixScan(Keys.prefix(cell), new StringSerializer())) {
      while (held.hasNext()) {
        found.add(held.next().value);
      }
    }
    return found;
  }
}
