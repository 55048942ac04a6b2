package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.Random;
import java.util.TreeMap;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.StreamsConfig;
import org.apache.kafka.streams.TestInputTopic;
import org.apache.kafka.streams.TestOutputTopic;
import org.apache.kafka.streams.Topology;
import org.apache.kafka.streams.TopologyTestDriver;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.dossier.Report.OnSameGround;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.OutlineDistance;
import org.kornspur.processors.ground.OutlineOverlap;
import org.kornspur.processors.ground.Plot;

/**
 * Plots come, move, change their pollen and leave. What the crops hold in the end is what measuring
 * every crop against every plot of its cell gives, whether the finder remembers the cells or must
 * make them again from its store at every turn, as after a start.
 */
class NeighbourFinderTest {
  private static final int CROPS = 5;
  private static final int SOURCES = 3;
  private static final int CELLS = 3;

  /** A plot that came into a cell, changed or left. */
  private record Step(String cell, PlotChange change) {}

  /** What a crop is told of a cell. */
  private record Told(List<Neighbour> near, List<OnSameGround> sameGround) {
    static final Told NOTHING = new Told(List.of(), List.of());
  }

  @Property(tries = 100)
  void cropsHoldWhatMeasuringEveryPairGives(@ForAll("histories") List<Step> history) {
    assertThat(heldAfter(history, NeighbourFinder.CELLS_IN_MEMORY)).isEqualTo(everyPair(history));
  }

  @Property(tries = 100)
  void aFinderThatRemembersNoOtherCellSaysTheSame(@ForAll("histories") List<Step> history) {
    assertThat(heldAfter(history, 1)).isEqualTo(everyPair(history));
  }

  @Property(tries = 50)
  void onlyCropsWhoseNeighboursChangedAreTold(@ForAll("histories") List<Step> history) {
    Map<String, Told> before = new TreeMap<>();
    List<Step> sofar = new ArrayList<>();
    try (Driven driven = new Driven(NeighbourFinder.CELLS_IN_MEMORY)) {
      for (Step step : history) {
        sofar.add(step);
        Map<String, Told> after = everyPair(sofar);
        int changed = 0;
        for (String crop : union(before, after)) {
          changed += after.getOrDefault(crop, Told.NOTHING).equals(before.get(crop)) ? 0 : 1;
        }
        assertThat(driven.accept(step)).isEqualTo(changed);
        before = after;
      }
    }
  }

  private static Map<String, Told> heldAfter(List<Step> history, int cellsInMemory) {
    try (Driven driven = new Driven(cellsInMemory)) {
      history.forEach(driven::accept);
      return driven.held;
    }
  }

  /** Neighbours of each crop that has any, by cell and crop, measured pair by pair at the end. */
  private static Map<String, Told> everyPair(List<Step> history) {
    Map<String, Map<Subject, Plot>> cells = new TreeMap<>();
    for (Step step : history) {
      Map<Subject, Plot> plots = cells.computeIfAbsent(step.cell(), cell -> new TreeMap<>());
      step.change()
          .plot()
          .ifPresentOrElse(
              plot -> plots.put(plot.subject(), plot), () -> plots.remove(step.change().subject()));
    }
    Map<String, Told> found = new TreeMap<>();
    cells.forEach(
        (cell, plots) ->
            plots
                .values()
                .forEach(
                    crop -> {
                      List<Plot> all = List.copyOf(plots.values());
                      Told told = new Told(neighboursOf(crop, all), onGroundOf(crop, all));
                      if (!told.equals(Told.NOTHING)) {
                        found.put(cell + " " + crop.subject(), told);
                      }
                    }));
    return found;
  }

  private static List<Neighbour> neighboursOf(Plot crop, List<Plot> inCell) {
    List<Neighbour> near = new ArrayList<>();
    for (Plot source : inCell) {
      if (crop.isThreatenedBy(source)) {
        OutlineDistance separation =
            OutlineDistance.between(
                Outline.ofPositions(crop.outline()), Outline.ofPositions(source.outline()));
        if (separation.distanceM() <= IsolationJoin.REACH_M) {
          near.add(
              new Neighbour(
                  source.subject(),
                  separation.distanceM(),
                  Area.hectares(Outline.ofPositions(source.outline())),
                  separation.onFirst(),
                  separation.onSecond(),
                  source.sourceKind(),
                  source.sheddingFrom(),
                  source.sheddingTo(),
                  source.factId(),
                  source.reportedBy(),
                  Optional.of(true).filter(same -> crop.pollenId().equals(source.pollenId()))));
        }
      }
    }
    near.sort(Comparator.comparingDouble(Neighbour::distanceM).thenComparing(Neighbour::source));
    return near;
  }

  private static List<OnSameGround> onGroundOf(Plot crop, List<Plot> inCell) {
    if (!crop.isSeedCrop()) {
      return List.of();
    }
    Outline ground = Outline.ofPositions(crop.outline());
    return inCell.stream()
        .filter(other -> other.isSeedCrop() && !other.subject().equals(crop.subject()))
        .map(
            other -> {
              Outline outline = Outline.ofPositions(other.outline());
              return new OnSameGround(
                  other.subject(),
                  OutlineOverlap.hectares(ground, outline),
                  Area.hectares(outline),
                  other.factId());
            })
        .filter(other -> other.commonHa() > 0)
        .sorted(Comparator.comparing(OnSameGround::crop))
        .toList();
  }

  private static java.util.Set<String> union(Map<String, Told> before, Map<String, Told> after) {
    java.util.Set<String> crops = new java.util.TreeSet<>(before.keySet());
    crops.addAll(after.keySet());
    return crops;
  }

  /** Thirty changes or so of few plots, so that most of them are moved and taken away again. */
  @Provide
  Arbitrary<List<Step>> histories() {
    return Arbitraries.randomValue(
        random -> {
          List<Step> history = new ArrayList<>();
          int size = 5 + random.nextInt(40);
          for (int i = 0; i < size; i++) {
            history.add(step(random, "f" + i));
          }
          return history;
        });
  }

  private static Step step(Random random, String factId) {
    String cell = "cell:2025:" + random.nextInt(CELLS);
    int which = random.nextInt(CROPS + SOURCES);
    Subject subject = which < CROPS ? Subject.crop("C" + which) : Subject.source("S" + which);
    if (random.nextInt(4) == 0) {
      return new Step(cell, new PlotChange(subject, Optional.empty()));
    }
    boolean crop = subject.kind() == Subject.Kind.CROP;
    return new Step(
        cell,
        new PlotChange(
            subject,
            Optional.of(
                new Plot(
                    subject,
                    2025,
                    square(500.0 * random.nextInt(10)),
                    crop ? Optional.of("pollen-" + random.nextInt(3)) : Optional.empty(),
                    crop ? Optional.empty() : Optional.of(PollenSourceKind.RYE_CROP),
                    Optional.of(LocalDate.of(2025, 5, 20)),
                    Optional.empty(),
                    factId,
                    Optional.empty(),
                    Optional.empty(),
                    Optional.of(true).filter(many -> crop && random.nextInt(4) == 0)))));
  }

  private static List<GeoPosition> square(double northM) {
    double south = InventedFacts.LATITUDE + northM / 111_300;
    double north = south + 200 / 111_300.0;
    return List.of(
        new GeoPosition(13.0, south),
        new GeoPosition(13.003, south),
        new GeoPosition(13.003, north),
        new GeoPosition(13.0, north));
  }

  /** The isolation join alone, and what its receivers hold. */
  private static final class Driven implements AutoCloseable {
    final Map<String, Told> held = new TreeMap<>();
    private final TopologyTestDriver driver;
    private final TestInputTopic<String, PlotChange> plots;
    private final TestOutputTopic<String, ReportChange> reports;

    Driven(int cellsInMemory) {
      Topology topology = new Topology();
      new IsolationJoin(StateStores.inMemory(), cellsInMemory).addTo(topology);
      Properties config = new Properties();
      config.put(StreamsConfig.APPLICATION_ID_CONFIG, "neighbours");
      config.put(StreamsConfig.BOOTSTRAP_SERVERS_CONFIG, "none:1");
      config.put(StreamsConfig.STATE_DIR_CONFIG, temporaryFolder());
      driver = new TopologyTestDriver(topology, config);
      plots =
          driver.createInputTopic(
              Topics.PLOTS.topicName(),
              new StringSerializer(),
              InternalSerdes.serde(PlotChange.class).serializer());
      reports =
          driver.createOutputTopic(
              Topics.REPORTS.topicName(),
              new StringDeserializer(),
              ReportChange.serde().deserializer());
    }

    /** Takes a step and returns how many reports it sent. */
    int accept(Step step) {
      plots.pipeInput(step.cell(), step.change());
      var sent = reports.readKeyValuesToList();
      sent.forEach(
          record -> {
            String key = record.value.sender() + " " + record.key;
            record
                .value
                .report()
                .ifPresentOrElse(
                    report -> {
                      Report.FromGround ground = (Report.FromGround) report;
                      held.put(key, new Told(ground.neighbours(), ground.sameGround()));
                    },
                    () -> held.remove(key));
          });
      return sent.size();
    }

    @Override
    public void close() {
      driver.close();
    }

    private static String temporaryFolder() {
      try {
        return Files.createTempDirectory("kornspur-neighbours").toString();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
