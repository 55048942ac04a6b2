package org.kornspur.processors.gates;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Predicate;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Limit.SecondSample;
import org.kornspur.processors.standards.Quantity;

/**
 * Which samples of a lot have too much of one kind, and whether another sample excuses it.
 *
 * <p>Of all samples that were counted each must meet the limit; which of them calls itself the
 * second makes no difference. Where the text allows a second sample, one sample alone may be over,
 * by no more than the text says, and every other must be as free as it says. Wild oats and Lolium
 * temulentum share one excuse: one seed of one of them, and neither in any other sample (arrete of
 * 15 September 1982, Annexe II, note (c)). The seeds are counted as they are: two in 1,000 g are
 * not one. A sample that is too light proves nothing good; what it has too many of counts.
 */
final class SecondSampleRule {
  private static final List<Quantity> EXCUSED_TOGETHER =
      List.of(Quantity.WILD_OAT_SEEDS, Quantity.LOLIUM_TEMULENTUM_SEEDS);

  private static final List<Quantity> EXCUSABLE =
      List.of(
          Quantity.OTHER_CEREAL_SEEDS, Quantity.WILD_OAT_SEEDS, Quantity.LOLIUM_TEMULENTUM_SEEDS);

  private final SeedLot lot;
  private final Optional<Limit> leastMass;
  private final List<OtherSeedDetermination> samples;

  SecondSampleRule(SeedLot lot) {
    this.lot = lot;
    this.leastMass = lot.limit(Quantity.COUNT_SAMPLE_MASS);
    this.samples = lot.dossier().facts(OtherSeedDetermination.class);
  }

  /** What the samples of one kind come to. */
  sealed interface Ruling {
    record NotCounted() implements Ruling {}

    /** No sample that is heavy enough was counted. */
    record OnlyLight(OtherSeedDetermination sample) implements Ruling {}

    /** Every sample is within the limit; this one is the worst. */
    record Within(OtherSeedDetermination worst) implements Ruling {}

    /** A sample is over the limit and nothing may excuse it. */
    record Over(OtherSeedDetermination worst) implements Ruling {}

    /** A second sample may excuse it and is missing, or was not counted whole. */
    record SecondMissing(OtherSeedDetermination over) implements Ruling {}

    /** It is over the limit, and this is the worst of all other samples. */
    record BySecond(OtherSeedDetermination over, OtherSeedDetermination second, boolean excused)
        implements Ruling {}
  }

  List<OtherSeedDetermination> samples() {
    return samples;
  }

  Optional<Limit> leastMass() {
    return leastMass;
  }

  boolean isTooLight(OtherSeedDetermination sample) {
    return leastMass.map(least -> !least.holds(sample.getSampleG())).orElse(false);
  }

  Ruling ruling(Quantity what, Limit limit) {
    List<OtherSeedDetermination> counted =
        samples.stream().filter(sample -> SeedCounts.of(what, sample) != null).toList();
    if (counted.isEmpty()) {
      return new Ruling.NotCounted();
    }
    OtherSeedDetermination worst = worst(what, counted);
    if (limit.holds(inLeast(what, worst))) {
      List<OtherSeedDetermination> heavy =
          counted.stream().filter(sample -> !isTooLight(sample)).toList();
      return heavy.isEmpty()
          ? new Ruling.OnlyLight(counted.get(counted.size() - 1))
          : new Ruling.Within(worst(what, heavy));
    }
    if (excusedIfFree(what, limit, worst) > 0) {
      return new Ruling.SecondMissing(worst);
    }
    Optional<SecondSample> rule = limit.secondSample();
    if (rule.isEmpty() || together(what, worst).orElse(0) > rule.get().firstAtMost()) {
      return new Ruling.Over(worst);
    }
    return bySecond(what, rule.get(), worst);
  }

  private Ruling bySecond(Quantity what, SecondSample rule, OtherSeedDetermination over) {
    List<OtherSeedDetermination> others =
        samples.stream().filter(sample -> !sample.equals(over)).toList();
    Optional<OtherSeedDetermination> tooMany =
        others.stream()
            .filter(sample -> proportional(sample, atLeast(what, sample)) > rule.secondAtMost())
            .findFirst();
    if (tooMany.isPresent()) {
      return new Ruling.BySecond(over, tooMany.get(), false);
    }
    if (isTooLight(over)) {
      return new Ruling.OnlyLight(over);
    }
    return others.stream()
        .filter(sample -> !isTooLight(sample))
        .filter(sample -> sample.getSampleNumber() != over.getSampleNumber())
        .filter(sample -> together(what, sample).isPresent())
        .filter(sample -> together(what, over).isPresent())
        .max(Comparator.comparingInt(sample -> together(what, sample).orElseThrow()))
        .<Ruling>map(second -> new Ruling.BySecond(over, second, true))
        .orElseGet(() -> new Ruling.SecondMissing(over));
  }

  private OtherSeedDetermination worst(Quantity what, List<OtherSeedDetermination> counted) {
    return counted.stream()
        .max(Comparator.comparingDouble(sample -> inLeast(what, sample)))
        .orElseThrow();
  }

  /**
   * The count in the mass that is asked for, without the seeds that another rule excuses. Where the
   * text allows one seed and has a rule of its own for the second, two are two in any sample.
   */
  double inLeast(Quantity what, OtherSeedDetermination sample) {
    int count = SeedCounts.of(what, sample) - excused(what, sample);
    boolean isOneSeedAlone =
        lot.limit(what)
            .filter(limit -> limit.value() <= 1 && limit.secondSample().isPresent())
            .isPresent();
    return isOneSeedAlone ? count : proportional(sample, count);
  }

  private double proportional(OtherSeedDetermination sample, int count) {
    double leastG = leastMass.map(Limit::value).orElse(sample.getSampleG());
    return sample.getSampleG() > leastG ? count * leastG / sample.getSampleG() : count;
  }

  /** Seeds of this sample that are excused in their own kind, so that they are no impurity. */
  int excused(Quantity what, OtherSeedDetermination sample) {
    return overOwnLimits(
        what,
        sample,
        ruling -> ruling instanceof Ruling.BySecond by && by.excused() && by.over().equals(sample));
  }

  /** Seeds that would be excused if a second sample were free of them, where that is enough. */
  private int excusedIfFree(Quantity what, Limit limit, OtherSeedDetermination sample) {
    int waiting =
        overOwnLimits(
            what,
            sample,
            ruling ->
                ruling instanceof Ruling.SecondMissing missing && missing.over().equals(sample));
    int count = SeedCounts.of(what, sample) - excused(what, sample) - waiting;
    return limit.holds(proportional(sample, count)) ? waiting : 0;
  }

  /** Seeds over the limits of their own kinds, of the kinds on which the ruling is such. */
  private int overOwnLimits(
      Quantity what, OtherSeedDetermination sample, Predicate<Ruling> isSuch) {
    return EXCUSABLE.stream()
        .filter(kind -> isWithin(kind, what))
        .mapToInt(
            kind ->
                lot.limit(kind)
                    .filter(own -> isSuch.test(ruling(kind, own)))
                    .map(own -> SeedCounts.of(kind, sample) - (int) own.value())
                    .orElse(0))
        .sum();
  }

  private static boolean isWithin(Quantity kind, Quantity sum) {
    return sum == Quantity.OTHER_SEEDS_TOTAL
        || (sum == Quantity.OTHER_PLANT_SEEDS && kind != Quantity.OTHER_CEREAL_SEEDS);
  }

  /** Seeds of all kinds that share the excuse; empty where one of them was not counted. */
  private Optional<Integer> together(Quantity what, OtherSeedDetermination sample) {
    List<Quantity> kinds = sharing(what);
    boolean whole = kinds.stream().allMatch(kind -> SeedCounts.of(kind, sample) != null);
    return whole ? Optional.of(atLeast(what, sample)) : Optional.empty();
  }

  private int atLeast(Quantity what, OtherSeedDetermination sample) {
    return sharing(what).stream()
        .map(kind -> SeedCounts.of(kind, sample))
        .filter(Objects::nonNull)
        .mapToInt(Integer::intValue)
        .sum();
  }

  private static List<Quantity> sharing(Quantity what) {
    return EXCUSED_TOGETHER.contains(what) ? EXCUSED_TOGETHER : List.of(what);
  }
}
