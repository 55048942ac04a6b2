package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.CountFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.gates.Found.At;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Counts by number in the first sample of a lot and in the second that a rule may allow. Of several
 * first or second samples the latest counts. In a sample heavier than the rulebook asks for, the
 * count is taken in proportion to the mass asked for.
 */
final class CountedSamples {
  private final SeedLot lot;
  private final Optional<Limit> leastMass;
  private final List<OtherSeedDetermination> samples;

  CountedSamples(SeedLot lot) {
    this.lot = lot;
    this.leastMass = lot.limit(Quantity.COUNT_SAMPLE_MASS);
    this.samples = lot.dossier().facts(OtherSeedDetermination.class);
  }

  boolean none() {
    return samples.isEmpty();
  }

  /**
   * Judges one kind of seed or body.
   *
   * @param what what is counted
   * @param count its count in a sample; null where it was not counted
   * @param remedies what to do where the limit is not met
   */
  Verdict judge(
      At at,
      Quantity what,
      Limit limit,
      Function<OtherSeedDetermination, Integer> count,
      List<Advice> remedies) {
    Optional<OtherSeedDetermination> first = latest(1, count);
    if (first.isEmpty()) {
      return Found.missing(at, limit, new Evidence.FirstCount(what));
    }
    Found found = found(at, what, first.get(), count);
    if (tooLight(first.get())) {
      return found
          .and(tooLightFinding(first.get()))
          .owed(limit, new Evidence.FirstSample(leastBound()));
    }
    double counted = inLeast(first.get(), count);
    boolean secondAllowed =
        limit
            .secondSample()
            .map(second -> !limit.holds(counted) && counted <= second.firstAtMost())
            .orElse(false);
    return secondAllowed
        ? bySecond(found, counted, what, limit, count, remedies)
        : found.against(counted, limit, remedies);
  }

  private Verdict bySecond(
      Found first,
      double countedInFirst,
      Quantity what,
      Limit limit,
      Function<OtherSeedDetermination, Integer> count,
      List<Advice> remedies) {
    double secondAtMost = limit.secondSample().orElseThrow().secondAtMost();
    Finding rule = new CountFinding.SecondSampleAllowed(new Amount(secondAtMost, what.unit()));
    Optional<OtherSeedDetermination> second = latest(2, count);
    if (second.isEmpty()) {
      return first.and(rule).owed(limit, new Evidence.SecondSample(leastBound()));
    }
    if (tooLight(second.get())) {
      return first
          .and(tooLightFinding(second.get()))
          .owed(limit, new Evidence.SecondSample(leastBound()));
    }
    double countedInSecond = inLeast(second.get(), count);
    return new Found(
            first.at(),
            List.of(first.factIds().get(0), second.get().getHeader().getFactId()),
            first.findings())
        .and(new CountFinding.InSecondSample(what, new Amount(countedInSecond, what.unit())))
        .and(rule)
        .decided(
            countedInSecond <= secondAtMost,
            new Measured(
                countedInFirst, limit.unit(), secondAtMost - countedInSecond, Optional.empty()),
            limit,
            remedies);
  }

  private Optional<OtherSeedDetermination> latest(
      int sampleNumber, Function<OtherSeedDetermination, Integer> count) {
    return samples.stream()
        .filter(sample -> sample.getSampleNumber() == sampleNumber)
        .filter(sample -> count.apply(sample) != null)
        .reduce((earlier, later) -> later);
  }

  private Found found(
      At at,
      Quantity what,
      OtherSeedDetermination sample,
      Function<OtherSeedDetermination, Integer> count) {
    int counted = count.apply(sample);
    double inLeast = inLeast(sample, count);
    Found found =
        Found.of(
            at,
            List.of(sample.getHeader().getFactId()),
            new CountFinding.InSample(what, counted, Amount.grams(sample.getSampleG())));
    return inLeast == counted
        ? found
        : found.and(
            new CountFinding.InProportion(
                new Amount(inLeast, what.unit()), Amount.grams(leastMass.orElseThrow().value())));
  }

  /** The count in the mass that is asked for. */
  private double inLeast(
      OtherSeedDetermination sample, Function<OtherSeedDetermination, Integer> count) {
    int counted = count.apply(sample);
    double leastG = leastMass.map(Limit::value).orElse(sample.getSampleG());
    return sample.getSampleG() > leastG ? counted * leastG / sample.getSampleG() : counted;
  }

  private boolean tooLight(OtherSeedDetermination sample) {
    return leastMass.map(least -> !least.holds(sample.getSampleG())).orElse(false);
  }

  private Finding tooLightFinding(OtherSeedDetermination sample) {
    return new CountFinding.SampleTooLight(
        Amount.grams(sample.getSampleG()), Bound.cited(leastMass.orElseThrow()));
  }

  private Optional<Statement> leastBound() {
    return leastMass.map(Bound::of);
  }
}
