package org.kornspur.api.readmodel;

import java.time.Instant;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.statistics.Replicate;
import org.kornspur.processors.verdict.Gate;

/**
 * Which samples are assigned to which laboratory, and which of its own results they have. A fact
 * that another corrects or takes back does not count, in whatever order the two are read.
 *
 * <p>It is the list, not the evidence: what a lot's results are is told by its dossier.
 */
public final class SampleIndex {

  /**
   * A sample that is assigned to a laboratory.
   *
   * @param drawnAt when it was drawn
   * @param assignedAt when its drawing was recorded, with the laboratory that it goes to
   * @param tested gates that a result of this laboratory speaks to
   * @param ergotFound whether it found ergot
   */
  public record Row(
      String lotId,
      String sampleId,
      Instant drawnAt,
      Instant assignedAt,
      Set<Gate> tested,
      boolean ergotFound) {}

  /**
   * A germination test of a laboratory.
   *
   * @param testedAt when it was made
   */
  public record Germination(
      String lotId, String sampleId, String factId, Instant testedAt, List<Replicate> replicates) {}

  private record Sample(String lotId, String sampleId) {}

  /** A fact; {@code assignedAt} only of a sampling, {@code replicates} of a germination test. */
  private record Held(
      String factId,
      Optional<Instant> assignedAt,
      Instant happenedAt,
      Set<Gate> tested,
      boolean ergotFound,
      List<Replicate> replicates) {}

  private final Map<String, Map<Sample, Map<String, Held>>> byLaboratory = new HashMap<>();
  private final Map<String, String> laboratoryOfTest = new HashMap<>();
  private final Set<String> superseded = new HashSet<>();

  /** Whether a fact of this type is looked at. */
  static boolean concerns(SpecificRecord fact) {
    return fact instanceof Sampling
        || fact instanceof GerminationTest
        || fact instanceof PurityTest
        || fact instanceof OtherSeedDetermination
        || fact instanceof MoistureTest
        || fact instanceof Withdrawal;
  }

  /** Takes a fact; of two with one id the first counts. */
  public synchronized void put(SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    Optional.ofNullable(header.getCorrection())
        .map(Correction::getSupersedes)
        .ifPresent(superseded::add);
    if (fact instanceof Withdrawal withdrawal) {
      superseded.add(withdrawal.getWithdrawnFactId());
    } else if (fact instanceof Sampling sampling) {
      if (sampling.getLaboratoryId() != null) {
        hold(
            sampling.getLaboratoryId(),
            new Sample(sampling.getLotId(), sampling.getSampleId()),
            new Held(
                header.getFactId(),
                Optional.of(header.getRecordedAt()),
                header.getHappenedAt(),
                EnumSet.noneOf(Gate.class),
                false,
                List.of()));
      }
    } else if (fact instanceof GerminationTest test) {
      test(test.getLaboratoryId(), test.getLotId(), test.getSampleId(), test, false);
    } else if (fact instanceof PurityTest test) {
      test(test.getLaboratoryId(), test.getLotId(), test.getSampleId(), test, false);
    } else if (fact instanceof MoistureTest test) {
      test(test.getLaboratoryId(), test.getLotId(), test.getSampleId(), test, false);
    } else if (fact instanceof OtherSeedDetermination test) {
      boolean ergot = test.getErgotBodies() != null && test.getErgotBodies() > 0;
      test(test.getLaboratoryId(), test.getLotId(), test.getSampleId(), test, ergot);
    }
  }

  /** Forgets all facts. */
  synchronized void clear() {
    byLaboratory.clear();
    laboratoryOfTest.clear();
    superseded.clear();
  }

  /** The samples that are assigned to a laboratory, in no order. */
  public synchronized List<Row> of(String laboratoryId) {
    return byLaboratory.getOrDefault(laboratoryId, Map.of()).entrySet().stream()
        .flatMap(sample -> row(sample.getKey(), sample.getValue().values()).stream())
        .toList();
  }

  /** The samples that are assigned to any laboratory, in no order. */
  public synchronized List<Row> all() {
    return byLaboratory.values().stream()
        .flatMap(samples -> samples.entrySet().stream())
        .flatMap(sample -> row(sample.getKey(), sample.getValue().values()).stream())
        .toList();
  }

  /** How many germination tests that count each laboratory made; only those that made some. */
  public synchronized SortedMap<String, Integer> germinationTests() {
    SortedMap<String, Integer> tests = new TreeMap<>();
    byLaboratory.forEach(
        (laboratoryId, samples) ->
            samples.values().stream()
                .flatMap(facts -> facts.values().stream())
                .filter(this::isCountedGermination)
                .forEach(fact -> tests.merge(laboratoryId, 1, Integer::sum)));
    return tests;
  }

  private boolean isCountedGermination(Held fact) {
    return !fact.replicates().isEmpty() && !superseded.contains(fact.factId());
  }

  /** The germination tests of a laboratory that count, the first first. */
  public synchronized List<Germination> germinationsOf(String laboratoryId) {
    return byLaboratory.getOrDefault(laboratoryId, Map.of()).entrySet().stream()
        .flatMap(
            sample ->
                sample.getValue().values().stream()
                    .filter(this::isCountedGermination)
                    .map(
                        fact ->
                            new Germination(
                                sample.getKey().lotId(),
                                sample.getKey().sampleId(),
                                fact.factId(),
                                fact.happenedAt(),
                                fact.replicates())))
        .sorted(Comparator.comparing(Germination::testedAt).thenComparing(Germination::factId))
        .toList();
  }

  /** None where more seedlings are told than seeds were set. */
  private static List<Replicate> replicates(GerminationTest test) {
    boolean fits =
        test.getReplicates().stream()
            .allMatch(
                one -> one.getNormalSeedlings() >= 0 && one.getNormalSeedlings() <= one.getSeeds());
    return fits
        ? test.getReplicates().stream()
            .map(one -> new Replicate(one.getSeeds(), one.getNormalSeedlings()))
            .toList()
        : List.of();
  }

  /** Whether a fact is a test of this laboratory. */
  public synchronized boolean isTestOf(String laboratoryId, String factId) {
    return laboratoryId.equals(laboratoryOfTest.get(factId));
  }

  /** Samples and results held, those that do not count too. */
  public synchronized int size() {
    return byLaboratory.values().stream()
        .flatMap(samples -> samples.values().stream())
        .mapToInt(Map::size)
        .sum();
  }

  /** Gates that a result speaks to; a count that was not made speaks to none. */
  public static Set<Gate> testedBy(SpecificRecord test) {
    EnumSet<Gate> tested = EnumSet.noneOf(Gate.class);
    if (test instanceof GerminationTest) {
      tested.add(Gate.GERMINATION);
    } else if (test instanceof PurityTest) {
      tested.add(Gate.ANALYTICAL_PURITY);
    } else if (test instanceof MoistureTest) {
      tested.add(Gate.MOISTURE);
    } else if (test instanceof OtherSeedDetermination counted) {
      if (counted.getErgotBodies() != null) {
        tested.add(Gate.ERGOT);
      }
      if (Stream.of(
              counted.getOtherCereals(),
              counted.getOtherPlants(),
              counted.getRaphanusAndAgrostemma(),
              counted.getWildOats(),
              counted.getLoliumTemulentum())
          .anyMatch(Objects::nonNull)) {
        tested.add(Gate.OTHER_SEEDS);
      }
    }
    return tested;
  }

  private void test(
      String laboratoryId, String lotId, String sampleId, SpecificRecord test, boolean ergotFound) {
    FactHeader header = FactType.headerOf(test);
    laboratoryOfTest.putIfAbsent(header.getFactId(), laboratoryId);
    hold(
        laboratoryId,
        new Sample(lotId, sampleId),
        new Held(
            header.getFactId(),
            Optional.empty(),
            header.getHappenedAt(),
            testedBy(test),
            ergotFound,
            test instanceof GerminationTest germination ? replicates(germination) : List.of()));
  }

  private void hold(String laboratoryId, Sample sample, Held fact) {
    byLaboratory
        .computeIfAbsent(laboratoryId, id -> new HashMap<>())
        .computeIfAbsent(sample, key -> new HashMap<>(8))
        .putIfAbsent(fact.factId(), fact);
  }

  private Optional<Row> row(Sample sample, Iterable<Held> facts) {
    EnumSet<Gate> tested = EnumSet.noneOf(Gate.class);
    boolean ergotFound = false;
    Optional<Held> drawn = Optional.empty();
    for (Held fact : facts) {
      if (superseded.contains(fact.factId())) {
        continue;
      }
      tested.addAll(fact.tested());
      ergotFound |= fact.ergotFound();
      if (fact.assignedAt().isPresent()) {
        drawn =
            Stream.concat(drawn.stream(), Stream.of(fact))
                .max(Comparator.comparing(Held::happenedAt).thenComparing(Held::factId));
      }
    }
    boolean found = ergotFound;
    return drawn.map(
        sampling ->
            new Row(
                sample.lotId(),
                sample.sampleId(),
                sampling.happenedAt(),
                sampling.assignedAt().orElseThrow(),
                tested,
                found));
  }
}
