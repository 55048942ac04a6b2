package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.finding.SamplingFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.SamplingIntensity;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * How the samples of a lot were drawn: of the whole lot, from enough places, and heavy enough,
 * grams. What was drawn too thinly is owed again. A sample stands for what lay there when it was
 * drawn, and not for seed that came in besides; each kind of test needs a result of a sample that
 * was drawn so.
 *
 * <p>Primary samples: the table of the rulebook. Mass: Council Directive 66/402/EEC, Annex III.
 */
final class SampleDrawing implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.toBeUsed(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.SUBMITTED_SAMPLE_MASS).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  /** Samples that stand for the lot; none where the book asks for none. */
  static List<Sampling> good(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook)
        .flatMap(
            lot ->
                lot.limit(Quantity.SUBMITTED_SAMPLE_MASS)
                    .map(
                        limit ->
                            good(lot, new SampledSeed(lot), dossier.facts(Sampling.class), limit)))
        .orElse(List.of());
  }

  private static List<Sampling> good(
      SeedLot lot, SampledSeed seed, List<Sampling> samplings, Limit limit) {
    List<Sampling> good = new ArrayList<>();
    for (Sampling drawn : samplings) {
      if (isGood(lot, seed, good, drawn, limit)) {
        good.add(drawn);
      }
    }
    return List.copyOf(good);
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<Sampling> samplings = lot.dossier().facts(Sampling.class);
    if (samplings.isEmpty()) {
      return lot.verdictsOfUnsplitOr(
          Gate.SAMPLING, () -> Findings.missing(Gate.SAMPLING, limit, new Evidence.Sampling()));
    }
    SampledSeed seed = new SampledSeed(lot);
    List<Sampling> good = good(lot, seed, samplings, limit);
    if (good.isEmpty()) {
      return List.of(owed(lot, seed, samplings.get(samplings.size() - 1), limit));
    }
    Sampling last = good.get(good.size() - 1);
    return List.of(
        testedOtherwise(lot, good, limit)
            .orElseGet(
                () -> found(lot, last).against(last.getSubmittedSampleG(), limit, List.of())));
  }

  /** A kind of test of which no result is of a sample that stands for the lot. */
  private static Optional<Verdict> testedOtherwise(SeedLot lot, List<Sampling> good, Limit limit) {
    Map<FactType, List<SpecificRecord>> tests =
        lot.dossier()
            .counting()
            .filter(fact -> sampleOf(fact).isPresent())
            .collect(Collectors.groupingBy(FactType::of, TreeMap::new, Collectors.toList()));
    Set<String> factIds = new TreeSet<>();
    Set<FactType> kinds = new TreeSet<>();
    tests.forEach(
        (kind, facts) -> {
          if (facts.stream().noneMatch(fact -> isOfOne(good, fact))) {
            kinds.add(kind);
            facts.forEach(fact -> factIds.add(FactType.idOf(fact)));
          }
        });
    if (kinds.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        Findings.of(
                Gate.SAMPLING,
                List.copyOf(factIds),
                new SamplingFinding.TestsOfOtherSamples(Fact.each(factIds)))
            .owed(limit, new Evidence.TestsOfDrawnSample(List.copyOf(kinds))));
  }

  /** Whether a test is of one of these samples: none was tested before it was drawn. */
  static boolean isOfOne(List<Sampling> drawn, SpecificRecord test) {
    return sampleOf(test).filter(sample -> isOfOne(drawn, test, sample)).isPresent();
  }

  static boolean isOfOne(List<Sampling> drawn, SpecificRecord test, String sample) {
    LocalDate tested = FactType.dayOf(test);
    return drawn.stream()
        .filter(sampling -> sampling.getSampleId().equals(sample))
        .anyMatch(sampling -> !tested.isBefore(FactType.dayOf(sampling)));
  }

  /** The sample that a test is of, by which the seed of the lot is judged. */
  static Optional<String> sampleOf(SpecificRecord fact) {
    if (fact instanceof GerminationTest test) {
      return Optional.of(test.getSampleId());
    } else if (fact instanceof PurityTest test) {
      return Optional.of(test.getSampleId());
    } else if (fact instanceof MoistureTest test) {
      return Optional.of(test.getSampleId());
    }
    return fact instanceof OtherSeedDetermination test
        ? Optional.of(test.getSampleId())
        : Optional.empty();
  }

  private static boolean isGood(
      SeedLot lot, SampledSeed seed, List<Sampling> good, Sampling sampling, Limit limit) {
    return !standsForPart(lot, seed, good, sampling)
        && sampling.getPrimarySamples() >= required(lot, sampling).primarySamples()
        && limit.holds(sampling.getSubmittedSampleG());
  }

  private static Verdict owed(SeedLot lot, SampledSeed seed, Sampling sampling, Limit limit) {
    Findings found = found(lot, sampling);
    if (standsForPart(lot, seed, List.of(), sampling)) {
      Amount held = Amount.kilograms(seed.neededKg(sampling, List.of()));
      return found
          .and(new SamplingFinding.OfPartOnly(Amount.kilograms(seed.sampledKg(sampling)), held))
          .owed(limit, new Evidence.SampleOfWholeLot(held));
    }
    int required = required(lot, sampling).primarySamples();
    return sampling.getPrimarySamples() < required
        ? found
            .and(new SamplingFinding.TooFewPrimarySamples())
            .owed(limit, new Evidence.SampleOfPrimarySamples(required))
        : found.and(new SamplingFinding.TooLight()).owed(limit, new Evidence.HeavierSample());
  }

  private static Findings found(SeedLot lot, Sampling sampling) {
    SamplingIntensity.Required required = required(lot, sampling);
    return Findings.of(
        Gate.SAMPLING,
        List.of(sampling.getHeader().getFactId()),
        new SamplingFinding.Drawn(
            sampling.getPrimarySamples(),
            required.primarySamples(),
            Amount.kilograms(sampling.getLotMassKg()),
            Reference.of(required.source()),
            Amount.grams(sampling.getSubmittedSampleG())));
  }

  private static boolean standsForPart(
      SeedLot lot, SampledSeed seed, List<Sampling> good, Sampling sampling) {
    double tolerance =
        lot.limit(Quantity.MASS_BALANCE_TOLERANCE).map(Limit::value).orElse(0.0) / 100;
    return seed.sampledKg(sampling) * (1 + tolerance) < seed.neededKg(sampling, good);
  }

  private static SamplingIntensity.Required required(SeedLot lot, Sampling sampling) {
    SamplingIntensity table =
        lot.rulebook()
            .primarySamples()
            .orElseThrow(
                () -> new IllegalStateException("No rulebook says how many primary samples"));
    return sampling.getContainers() == null
        ? table.inBulk(sampling.getLotMassKg())
        : table.inContainers(sampling.getContainers(), sampling.getLotMassKg());
  }
}
