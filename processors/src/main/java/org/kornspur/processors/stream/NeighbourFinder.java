package org.kornspur.processors.stream;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import org.apache.kafka.streams.errors.StreamsException;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.ground.IsolationCells;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.Plot;

/**
 * Holds the plots of a cell and tells each seed crop in it which foreign pollen is near.
 *
 * <p>The store of plots is what counts. Beside it the ground of the cells last touched is kept in
 * memory; it is made again from the store after a start and for a cell that was not touched lately.
 */
final class NeighbourFinder implements Processor<String, PlotChange, String, ReportChange> {
  /** Enough for facts that come enterprise by enterprise; the densest cells hold some megabytes. */
  static final int CELLS_IN_MEMORY = 32;

  private static final Route<ReportChange> TO_CROPS =
      Route.withEndRecord(IsolationJoin.TO_CROPS, Topics.REPORTS, Topics.reports());

  private final Map<String, IsolationCellIndex> grounds;
  private KeyValueStore<String, Plot> plots;
  private Outbox<ReportChange> outbox;

  NeighbourFinder(int cellsInMemory) {
    grounds =
        new LinkedHashMap<>(16, 0.75f, true) {
          @Override
          protected boolean removeEldestEntry(Map.Entry<String, IsolationCellIndex> eldest) {
            return size() > cellsInMemory;
          }
        };
  }

  @Override
  public void init(ProcessorContext<String, ReportChange> context) {
    // a task that starts again may have lost what it had done last
    grounds.clear();
    plots = context.getStateStore(StateStores.CELL_PLOTS);
    outbox = new Outbox<>(context, context.getStateStore(StateStores.CELL_OUTBOX));
  }

  @Override
  public void process(Record<String, PlotChange> record) {
    String cell = Keys.part(record.key());
    int year = IsolationCells.yearOf(cell);
    PlotChange change = InternalSerdes.requireWhole(record.value());
    change.plot().ifPresent(plot -> requirePlaceable(change.subject(), plot));
    String key = Keys.of(cell, change.subject());
    Optional<Plot> before = Optional.ofNullable(plots.get(key));
    if (before.equals(change.plot())) {
      return;
    }
    IsolationCellIndex ground = grounds.computeIfAbsent(cell, of -> groundOf(of, year));
    SortedSet<Subject> touched;
    try {
      touched = ground.change(change.subject(), change.plot());
    } catch (RuntimeException fault) {
      // half changed: to be made again from the store, which does not hold this plot
      grounds.remove(cell);
      throw fault;
    }
    change.plot().ifPresentOrElse(plot -> plots.put(key, plot), () -> plots.delete(key));
    for (Subject crop : touched) {
      tell(
          new Report.FromGround(
              cell, crop, ground.near(crop), ground.earlier(crop), ground.sameGround(crop)));
    }
  }

  private static void requirePlaceable(Subject subject, Plot plot) {
    Outline.ofPositions(plot.outline());
    if (!plot.subject().equals(subject)) {
      throw new IllegalArgumentException(
          "The plot of " + plot.subject() + " as that of " + subject);
    }
  }

  /** Without one of its plots, a cell would tell its crops of less pollen than there is. */
  private IsolationCellIndex groundOf(String cell, int year) {
    try {
      return IsolationCellIndex.of(year, plotsIn(cell));
    } catch (RuntimeException unreadable) {
      throw new StreamsException("The store of plots cannot be read in " + cell, unreadable);
    }
  }

  private void tell(Report.FromGround told) {
    boolean isNothing =
        told.neighbours().isEmpty() && told.earlier().isEmpty() && told.sameGround().isEmpty();
    Optional<Outbox.Letter<ReportChange>> letter =
        isNothing ? Optional.empty() : Optional.of(ReportChange.letter(told));
    outbox.deliverOne(told.cell(), TO_CROPS, told.receiver().toString(), letter);
  }

  private List<Plot> plotsIn(String cell) {
    return Keys.scan(plots, Keys.prefix(cell)).stream().map(held -> held.value).toList();
  }
}
