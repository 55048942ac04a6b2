package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;
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
   * @param what what is counted; see {@link Counted}
   * @param count its count in a sample; null where it was not counted
   * @param remedy what to do where the limit is not met
   */
  Verdict judge(
      Gate gate,
      String aspect,
      String what,
      Limit limit,
      Function<OtherSeedDetermination, Integer> count,
      String remedy) {
    Optional<OtherSeedDetermination> first = latest(1, count);
    if (first.isEmpty()) {
      return Finding.missing(
          gate,
          aspect,
          limit,
          "a first sample in which %s were counted".formatted(Counted.plural(what)));
    }
    Finding finding = finding(gate, aspect, what, first.get(), count);
    if (tooLight(first.get())) {
      return finding.owed(limit, heavyEnough("a first sample"), tooLightBecause(first.get()));
    }
    boolean secondAllowed =
        limit
            .secondSample()
            .map(second -> !limit.holds(finding.value()) && finding.value() <= second.firstAtMost())
            .orElse(false);
    return secondAllowed
        ? bySecond(finding, what, limit, count, remedy)
        : finding.against(limit, remedy);
  }

  private Verdict bySecond(
      Finding first,
      String what,
      Limit limit,
      Function<OtherSeedDetermination, Integer> count,
      String remedy) {
    double secondAtMost = limit.secondSample().orElseThrow().secondAtMost();
    String rule =
        "with so few over the limit a second sample of the same mass saves the lot if it has at most "
            + Wording.number(secondAtMost);
    Optional<OtherSeedDetermination> second = latest(2, count);
    if (second.isEmpty()) {
      return first.owed(limit, heavyEnough("a second sample"), rule);
    }
    if (tooLight(second.get())) {
      return first.owed(limit, heavyEnough("a second sample"), tooLightBecause(second.get()));
    }
    Finding inSecond = finding(first.gate(), first.aspect(), what, second.get(), count);
    boolean saved = inSecond.value() <= secondAtMost;
    return new Finding(
            first.gate(),
            first.aspect(),
            first.value(),
            Optional.empty(),
            List.of(first.factIds().get(0), inSecond.factIds().get(0)),
            "%s; the second sample has %s, and %s"
                .formatted(first.clause(), Wording.number(inSecond.value()), rule))
        .decided(saved, secondAtMost - inSecond.value(), limit, remedy);
  }

  private Optional<OtherSeedDetermination> latest(
      int sampleNumber, Function<OtherSeedDetermination, Integer> count) {
    return samples.stream()
        .filter(sample -> sample.getSampleNumber() == sampleNumber)
        .filter(sample -> count.apply(sample) != null)
        .reduce((earlier, later) -> later);
  }

  private Finding finding(
      Gate gate,
      String aspect,
      String what,
      OtherSeedDetermination sample,
      Function<OtherSeedDetermination, Integer> count) {
    int counted = count.apply(sample);
    double leastG = leastMass.map(Limit::value).orElse(sample.getSampleG());
    double inLeast =
        sample.getSampleG() > leastG ? counted * leastG / sample.getSampleG() : counted;
    String proportion =
        inLeast == counted
            ? ""
            : ", which is %s in %s g".formatted(Wording.number(inLeast), Wording.number(leastG));
    return new Finding(
        gate,
        aspect,
        inLeast,
        Optional.empty(),
        List.of(sample.getHeader().getFactId()),
        "The sample of %s g has %s%s"
            .formatted(Wording.number(sample.getSampleG()), Counted.of(counted, what), proportion));
  }

  private boolean tooLight(OtherSeedDetermination sample) {
    return leastMass.map(least -> !least.holds(sample.getSampleG())).orElse(false);
  }

  private String tooLightBecause(OtherSeedDetermination sample) {
    return "a sample of %s g is too light, %s is asked for (%s)"
        .formatted(
            Wording.number(sample.getSampleG()),
            leastMass.orElseThrow().wording(),
            leastMass.orElseThrow().citation());
  }

  private String heavyEnough(String sample) {
    return leastMass
        .map(least -> sample + " of " + least.wording())
        .orElse(sample + " of the same mass");
  }

  /** The remedy, with the caution for treated seed. */
  String remedy(String remedy) {
    return lot.remedy(remedy);
  }
}
