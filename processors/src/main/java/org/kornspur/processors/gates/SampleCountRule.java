package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.BasisFinding.SetAside;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.CountFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.WhySetAside;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.gates.SecondSampleRule.Ruling;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Counts by number in the samples of a lot, as {@link SecondSampleRule} rules on them: the worst
 * counts, and what failed for good is not made good by a further sample. In a sample heavier than
 * the rulebook asks for, the count is taken in proportion to the mass asked for.
 */
final class SampleCountRule {
  private final SecondSampleRule samples;

  SampleCountRule(SeedLot lot) {
    this.samples = new SecondSampleRule(lot);
  }

  boolean none() {
    return samples.samples().isEmpty();
  }

  /**
   * Judges one kind of seed or body.
   *
   * @param what what is counted
   * @param remedies what to do where the limit is not met
   */
  Verdict judge(GateAspect at, Quantity what, Limit limit, List<Advice> remedies) {
    Ruling ruling = samples.ruling(what, limit);
    if (ruling instanceof Ruling.NotCounted) {
      return Findings.missing(at, limit, new Evidence.FirstCount(what));
    } else if (ruling instanceof Ruling.OnlyLight light) {
      return found(at, what, light.sample())
          .and(tooLight(light.sample()))
          .and(notSettled(what, limit, light.sample()))
          .and(aside(what, WhySetAside.TOO_LIGHT, light.sample()))
          .owed(limit, new Evidence.FirstSample(leastBound()));
    } else if (ruling instanceof Ruling.Within within) {
      return found(at, what, within.worst())
          .and(aside(what, WhySetAside.ANOTHER_IS_WORSE, within.worst()))
          .against(samples.inLeast(what, within.worst()), limit, remedies);
    } else if (ruling instanceof Ruling.Over over) {
      return found(at, what, over.worst())
          .and(aside(what, WhySetAside.FAILURE_STANDS, over.worst()))
          .against(samples.inLeast(what, over.worst()), limit, atLast(what, remedies));
    } else if (ruling instanceof Ruling.SecondMissing missing) {
      return found(at, what, missing.over())
          .and(rule(what, limit))
          .and(notSettled(what, limit, missing.over()))
          .and(aside(what, WhySetAside.TOO_LIGHT, missing.over()))
          .owed(limit, new Evidence.SecondSample(leastBound()));
    }
    return bySecond(at, what, limit, (Ruling.BySecond) ruling, remedies);
  }

  private Verdict bySecond(
      GateAspect at, Quantity what, Limit limit, Ruling.BySecond by, List<Advice> remedies) {
    double secondAtMost = limit.secondSample().orElseThrow().secondAtMost();
    double inSecond = countedIn(what, by.second());
    Findings first = found(at, what, by.over());
    return new Findings(at, List.of(first.factIds().get(0), factId(by.second())), first.findings())
        .and(new CountFinding.InSecondSample(what, new Amount(inSecond, what.unit())))
        .and(rule(what, limit))
        .and(
            aside(
                what,
                by.excused() ? WhySetAside.ANOTHER_IS_WORSE : WhySetAside.FAILURE_STANDS,
                by.over(),
                by.second()))
        .decided(
            by.excused(),
            Measured.exact(
                samples.inLeast(what, by.over()),
                limit.unit(),
                by.excused() ? secondAtMost - inSecond : limit.margin(countedIn(what, by.over()))),
            limit,
            by.excused() ? remedies : atLast(what, remedies));
  }

  private List<Finding> rule(Quantity what, Limit limit) {
    return limit
        .secondSample()
        .map(
            rule ->
                Stream.concat(
                        Stream.<Finding>of(
                            new CountFinding.SecondSampleAllowed(
                                new Amount(rule.secondAtMost(), what.unit()))),
                        rule.verified()
                            ? Stream.empty()
                            : Stream.of(new CountFinding.SecondSampleFromMemory()))
                    .toList())
        .orElse(List.of());
  }

  /** Where more than one sample was counted, another changes nothing. */
  private List<Advice> atLast(Quantity what, List<Advice> remedies) {
    return counted(what).count() > 1
        ? Stream.concat(Stream.of(new Advice.FailedForGood()), remedies.stream()).toList()
        : remedies;
  }

  private double countedIn(Quantity what, OtherSeedDetermination sample) {
    return SeedCounts.of(what, sample) == null ? 0 : samples.inLeast(what, sample);
  }

  private Stream<OtherSeedDetermination> counted(Quantity what) {
    return samples.samples().stream().filter(sample -> SeedCounts.of(what, sample) != null);
  }

  private List<SetAside> aside(
      Quantity what, WhySetAside why, OtherSeedDetermination... thatCount) {
    List<OtherSeedDetermination> count = List.of(thatCount);
    return counted(what)
        .filter(sample -> !count.contains(sample))
        .map(
            sample ->
                new BasisFinding.SetAside(
                    new Fact(factId(sample)),
                    new Amount(SeedCounts.of(what, sample), what.unit()),
                    samples.isTooLight(sample) ? WhySetAside.TOO_LIGHT : why))
        .toList();
  }

  private Findings found(GateAspect at, Quantity what, OtherSeedDetermination sample) {
    int count = SeedCounts.of(what, sample);
    int excused = samples.excused(what, sample);
    double inLeast = samples.inLeast(what, sample);
    List<Finding> findings = new ArrayList<>();
    findings.add(new CountFinding.InSample(what, count, Amount.grams(sample.getSampleG())));
    if (excused > 0) {
      findings.add(new CountFinding.Excused(new Amount(excused, what.unit())));
    }
    if (inLeast != count - excused) {
      findings.add(
          new CountFinding.InProportion(
              new Amount(inLeast, what.unit()),
              Amount.grams(samples.leastMass().orElseThrow().value())));
    }
    return new Findings(at, List.of(factId(sample)), findings);
  }

  private Optional<Finding> notSettled(Quantity what, Limit limit, OtherSeedDetermination sample) {
    return limit.holds(samples.inLeast(what, sample))
        ? Optional.empty()
        : Optional.of(new BasisFinding.NotSettled());
  }

  private Finding tooLight(OtherSeedDetermination sample) {
    return new CountFinding.SampleTooLight(
        Amount.grams(sample.getSampleG()), Bound.cited(samples.leastMass().orElseThrow()));
  }

  private Optional<Statement> leastBound() {
    return samples.leastMass().map(Bound::of);
  }

  private static String factId(OtherSeedDetermination sample) {
    return sample.getHeader().getFactId();
  }
}
