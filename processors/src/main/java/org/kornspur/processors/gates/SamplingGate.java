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
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.LaboratoryResults;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.finding.SamplingFinding;
import org.kornspur.processors.pedigree.Edge;
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
 * was drawn so, by somebody who is declared for it.
 *
 * <p>Primary samples: the table of the rulebook. Mass: Council Directive 66/402/EEC, Annex III. Who
 * draws: the Seed Ordinance (SaatV), section 11(1), read, has the authority appoint the sampler;
 * elsewhere common practice, no source.
 */
final class SamplingGate implements GateRule {

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
      return ofUndrawn(lot, limit);
    }
    SampledSeed seed = new SampledSeed(lot);
    List<Sampling> good = good(lot, seed, samplings, limit);
    if (good.isEmpty()) {
      Sampling told =
          samplings.stream()
              .filter(drawn -> isDrawnWell(lot, seed, List.of(), drawn, limit))
              .findFirst()
              .orElse(samplings.get(samplings.size() - 1));
      return List.of(owed(lot, seed, told, limit));
    }
    Sampling last = good.get(good.size() - 1);
    return List.of(
        testedOtherwise(lot, good, limit)
            .orElseGet(
                () -> found(lot, last).against(last.getSubmittedSampleG(), limit, List.of())));
  }

  /** A sample of the whole speaks for a part or for treated seed that has no test of its own. */
  private static List<Verdict> ofUndrawn(SeedLot lot, Limit limit) {
    List<Verdict> ofWhole =
        lot.verdictsOfUnsplitOr(
            Gate.SAMPLING,
            () ->
                treatedInPortions(lot, limit)
                    .orElseGet(
                        () -> Findings.missing(Gate.SAMPLING, limit, new Evidence.Sampling())));
    return ofWhole.stream().allMatch(Verdict.Met.class::isInstance)
        ? testedOtherwise(lot, List.of(), limit).map(List::of).orElse(ofWhole)
        : ofWhole;
  }

  /** Seed of one lot that was treated, and not all of it at one time: it is sampled after that. */
  private static Optional<Verdict> treatedInPortions(SeedLot lot, Limit limit) {
    List<Edge> in = lot.dossier().edgesIn();
    List<String> works = in.stream().map(Edge::factId).distinct().toList();
    List<Subject> untreated = in.stream().map(Edge::parent).distinct().toList();
    if (untreated.size() != 1
        || !works.stream().allMatch(work -> OnlyTreated.isBy(work, lot.dossier()))) {
      return Optional.empty();
    }
    Optional<Double> heldKg =
        lot.dossier().parent(untreated.get(0)).flatMap(Report.FromParent::heldKg);
    double treatedKg = in.stream().mapToDouble(Edge::massKg).sum();
    boolean isPortion = heldKg.filter(kg -> treatedKg < kg).isPresent();
    return works.size() > 1 || isPortion
        ? Optional.of(
            Findings.of(
                    Gate.SAMPLING,
                    works,
                    new SamplingFinding.TreatedInPortions(
                        untreated.get(0),
                        Amount.kilograms(treatedKg),
                        heldKg.map(Amount::kilograms)))
                .owed(limit, new Evidence.SampleOfTreated(Amount.kilograms(treatedKg))))
        : Optional.empty();
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
    } else if (fact instanceof BlendComposition sample) {
      return Optional.of(sample.getSampleId());
    }
    return fact instanceof OtherSeedDetermination test
        ? Optional.of(test.getSampleId())
        : Optional.empty();
  }

  private static boolean isGood(
      SeedLot lot, SampledSeed seed, List<Sampling> good, Sampling sampling, Limit limit) {
    return LaboratoryResults.isDeclared(lot.dossier(), sampling)
        && isDrawnWell(lot, seed, good, sampling, limit);
  }

  /** Whoever drew it. */
  private static boolean isDrawnWell(
      SeedLot lot, SampledSeed seed, List<Sampling> good, Sampling sampling, Limit limit) {
    return !standsForPart(lot, seed, good, sampling)
        && sampling.getPrimarySamples() >= required(lot, sampling).primarySamples()
        && limit.holds(sampling.getSubmittedSampleG());
  }

  private static Verdict owed(SeedLot lot, SampledSeed seed, Sampling sampling, Limit limit) {
    Findings found = found(lot, sampling);
    if (standsForPart(lot, seed, List.of(), sampling)) {
      double neededKg = seed.neededKg(sampling, List.of());
      Amount held = Amount.kilograms(neededKg > 0 ? neededKg : lot.totalKg(MassFlow.Direction.IN));
      return found
          .and(new SamplingFinding.OfPartOnly(Amount.kilograms(seed.sampledKg(sampling)), held))
          .owed(limit, new Evidence.SampleOfWholeLot(held));
    }
    int required = required(lot, sampling).primarySamples();
    if (isDrawnWell(lot, seed, List.of(), sampling, limit)) {
      return found.and(notDeclared(sampling)).owed(limit, new Evidence.DeclaredSampler());
    }
    return sampling.getPrimarySamples() < required
        ? found
            .and(new SamplingFinding.TooFewPrimarySamples())
            .owed(limit, new Evidence.SampleOfPrimarySamples(required))
        : found.and(new SamplingFinding.TooLight()).owed(limit, new Evidence.HeavierSample());
  }

  private static SamplingFinding notDeclared(Sampling sampling) {
    Fact fact = new Fact(FactType.idOf(sampling));
    return LaboratoryResults.laboratoryOf(sampling)
        .<SamplingFinding>map(
            sampler ->
                new SamplingFinding.SamplerNotDeclared(fact, sampler, FactType.dayOf(sampling)))
        .orElseGet(() -> new SamplingFinding.NoSampler(fact));
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
    return seed.isOfPartOnly(sampling, good, lot.massTolerance());
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
