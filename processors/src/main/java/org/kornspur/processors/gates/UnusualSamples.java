package org.kornspur.processors.gates;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.verdict.Verdict;

/**
 * Samples of which more was looked at than was sent in, in one test or in several portions, and
 * samples of one name: what was found in them is not sure. Common practice, no source.
 */
final class UnusualSamples {
  private UnusualSamples() {}

  static Stream<Verdict> judge(Dossier dossier) {
    Map<String, Double> submittedG =
        dossier.facts(Sampling.class).stream()
            .collect(
                Collectors.toMap(
                    Sampling::getSampleId,
                    Sampling::getSubmittedSampleG,
                    (a, b) -> Math.max(a, b)));
    return Stream.of(
            purity(dossier, submittedG), otherSeeds(dossier, submittedG), ofOneName(dossier))
        .flatMap(verdicts -> verdicts);
  }

  private static Stream<Verdict> purity(Dossier dossier, Map<String, Double> submittedG) {
    return dossier.facts(PurityTest.class).stream()
        .flatMap(
            test ->
                moreThanSubmitted(
                    test,
                    test.getSampleId(),
                    test.getPureSeedG() + test.getInertMatterG() + test.getOtherSeedsG(),
                    submittedG));
  }

  /**
   * One portion, and all together: a second sample is no part of the first that is counted anew.
   */
  private static Stream<Verdict> otherSeeds(Dossier dossier, Map<String, Double> submittedG) {
    List<OtherSeedDetermination> counts = dossier.facts(OtherSeedDetermination.class);
    return counts.stream()
        .flatMap(
            count ->
                moreThanSubmitted(
                    count,
                    count.getSampleId(),
                    Math.max(count.getSampleG(), togetherG(counts, count)),
                    submittedG));
  }

  /** Grams of all portions of a sample, at the last of them; of earlier ones their own. */
  private static double togetherG(
      List<OtherSeedDetermination> counts, OtherSeedDetermination last) {
    Map<Integer, Double> portions = new TreeMap<>();
    for (OtherSeedDetermination count : counts) {
      if (count.getSampleId().equals(last.getSampleId())
          && count.getSampleNumber() <= last.getSampleNumber()) {
        portions.merge(count.getSampleNumber(), count.getSampleG(), Math::max);
      }
    }
    return portions.values().stream().mapToDouble(grams -> grams).sum();
  }

  private static Stream<Verdict> moreThanSubmitted(
      SpecificRecord test, String sample, double testedG, Map<String, Double> submittedG) {
    String factId = FactType.idOf(test);
    return Optional.ofNullable(submittedG.get(sample))
        .filter(submitted -> testedG > submitted)
        .map(
            submitted ->
                UnusualFacts.owed(
                    "working sample, fact " + factId,
                    new Aspect.Sample(sample, new Fact(factId)),
                    List.of(factId),
                    new OriginFinding.MoreThanSubmitted(
                        new Fact(factId), Amount.grams(testedG), Amount.grams(submitted)),
                    Optional.empty()))
        .stream();
  }

  /** Nobody knows of which of them a test is. */
  private static Stream<Verdict> ofOneName(Dossier dossier) {
    Map<String, List<Sampling>> byName =
        dossier.facts(Sampling.class).stream()
            .collect(
                Collectors.groupingBy(Sampling::getSampleId, TreeMap::new, Collectors.toList()));
    return byName.entrySet().stream()
        .filter(
            named -> named.getValue().stream().map(UnusualSamples::drawn).distinct().count() > 1)
        .map(
            named -> {
              List<String> factIds = FactType.idsOf(named.getValue());
              return UnusualFacts.owed(
                  "samples of one name, " + named.getKey(),
                  new Aspect.Sample(named.getKey(), new Fact(factIds.get(0))),
                  factIds,
                  new OriginFinding.SamplesOfOneName(named.getKey(), Fact.each(factIds)),
                  Optional.empty());
            });
  }

  /** A sampling that is on record twice is one. */
  private static List<Object> drawn(Sampling sampling) {
    return List.of(
        FactType.dayOf(sampling),
        sampling.getPrimarySamples(),
        sampling.getLotMassKg(),
        sampling.getSubmittedSampleG(),
        sampling.getSamplerAccreditation());
  }
}
