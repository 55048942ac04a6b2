package org.kornspur.processors.gates;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.pedigree.Edge;

/**
 * How much of the seed of a lot a sample can stand for, and how much it must; put together once for
 * all samples of the lot.
 */
final class SampledSeed {
  private record Out(Instant when, LocalDate day, double massKg, boolean passedOn) {}

  private final double allKg;
  private final List<Edge> in;
  private final List<Out> out;
  private final Map<String, List<SpecificRecord>> testsOfSample;

  SampledSeed(SeedLot lot) {
    this.allKg = lot.totalKg(MassFlow.Direction.IN);
    this.in = lot.dossier().edgesIn();
    Map<String, SpecificRecord> facts =
        lot.dossier()
            .counting()
            .collect(Collectors.toMap(FactType::idOf, fact -> fact, (one, same) -> one));
    this.out =
        lot.flows(MassFlow.Direction.OUT).stream()
            .map(flow -> out(flow, facts.get(flow.factId()), OnlyTreated.isOfAll(flow, lot)))
            .toList();
    this.testsOfSample =
        facts.values().stream()
            .filter(fact -> SamplingGate.sampleOf(fact).isPresent())
            .collect(Collectors.groupingBy(fact -> SamplingGate.sampleOf(fact).orElseThrow()));
  }

  private static Out out(MassFlow flow, SpecificRecord fact, boolean restsOnThis) {
    return new Out(
        FactType.headerOf(fact).getHappenedAt(),
        FactType.dayOf(fact),
        flow.massKg(),
        SeedLot.PASSED_ON.contains(flow.by()) && !restsOnThis);
  }

  /**
   * What a sample must stand for: all that the lot ever held, without what had gone into other lots
   * that are sampled again. Seed that was divided off, sold or sown before is part of it, unless it
   * was there when an earlier sample was drawn, of which the same was tested; and so is seed of a
   * treated lot that rests on samples of this one.
   *
   * @param good samples that were drawn well before
   */
  double neededKg(Sampling sampling, List<Sampling> good) {
    Instant drawn = sampling.getHeader().getHappenedAt();
    LocalDate day = FactType.dayOf(sampling);
    Set<FactType> tested = kinds(sampling);
    List<LocalDate> before =
        good.stream()
            .filter(earlier -> kinds(earlier).containsAll(tested))
            .map(FactType::dayOf)
            .toList();
    return allKg
        - sum(flow -> flow.passedOn && flow.when.isBefore(drawn))
        - sum(
            flow ->
                !flow.passedOn
                    && flow.day.isBefore(day)
                    && before.stream().anyMatch(earlier -> !flow.day.isBefore(earlier)));
  }

  /** Whether a sample was drawn from less than it must stand for, or from nothing. */
  boolean isOfPartOnly(Sampling sampling, List<Sampling> good, double tolerance) {
    double sampledKg = sampledKg(sampling);
    return sampledKg <= 0 || sampledKg * (1 + tolerance) < neededKg(sampling, good);
  }

  /**
   * What it can have been drawn from, whatever it says: not seed that came in on a later day, and
   * not seed that was gone by the day before.
   */
  double sampledKg(Sampling sampling) {
    LocalDate drawn = FactType.dayOf(sampling);
    double laterKg =
        in.stream().filter(edge -> edge.day().isAfter(drawn)).mapToDouble(Edge::massKg).sum();
    double thereKg = allKg - laterKg - sum(flow -> flow.day.isBefore(drawn));
    return Math.min(sampling.getLotMassKg(), Math.max(0, thereKg));
  }

  private Set<FactType> kinds(Sampling sampling) {
    return testsOfSample.getOrDefault(sampling.getSampleId(), List.of()).stream()
        .filter(test -> SamplingGate.isOfOne(List.of(sampling), test))
        .map(FactType::of)
        .collect(Collectors.toSet());
  }

  private double sum(Predicate<Out> which) {
    return out.stream().filter(which).mapToDouble(Out::massKg).sum();
  }
}
