package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.Blend;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report.Scheme;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.PollinatorShare;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Share of pollinator in a technical mixture, percent on the basis that the breeder states, held
 * against the breeder's ratio with its tolerance and what the rulebook adds to it.
 *
 * <p>Seed Ordinance (SaatV), Annex 2 no. 1.4.2.2: the male share must not clearly exceed the
 * breeder's stated ratio; the law gives no number. Judged by what went in, and by a sample in which
 * kernels were told apart, {@link BlendSample}; of a mixture that was graded by a sample alone,
 * {@link GradedMixture}. Where tests of the parts contradict each other, a sample that clearly
 * holds settles it: it looked at the mixture itself.
 */
final class BlendShareGate implements GateRule {
  static final double CONFIDENCE = 0.95;

  /** Greatest share of pollinator that the contract takes. */
  private static final double MOST_PERCENT = 50;

  /** Shares are compared to a millionth of a percent: beyond that lies only binary arithmetic. */
  private static final double STEPS_IN_PERCENT = 1e6;

  static final List<Advice> REMEDIES = List.of(new Advice.CorrectMixture());

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook)
        .filter(lot -> lot.material().kind() == Material.Kind.TECHNICAL_MIXTURE)
        .map(BlendShareGate::judge)
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot) {
    List<Blend> blends =
        lot.dossier().facts(Blend.class).stream()
            .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(lot.dossier().subject()))
            .toList();
    List<BlendComposition> samples = lot.dossier().facts(BlendComposition.class);
    List<Sampling> drawn = SamplingGate.good(lot.dossier(), lot.rulebook());
    if (blends.isEmpty() && samples.isEmpty()) {
      return GradedMixture.owed(lot, drawn).or(() -> ofMixtureBoughtIn(lot, drawn)).stream()
          .toList();
    }
    Optional<Scheme> scheme = lot.dossier().scheme();
    if (scheme.isEmpty()) {
      Subject hybrid = Subject.hybrid(lot.material().hybridId());
      return List.of(
          Findings.of(Gate.BLEND_SHARE, List.of(), new BlendFinding.NoRatio(hybrid))
              .owed(
                  lot.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE),
                  new Evidence.MasterData(hybrid)));
    }
    if (!isRatio(scheme.get())) {
      return List.of(noRatio(lot, scheme.get()));
    }
    Stated stated = new Stated(scheme.get(), lot.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE), lot);
    MixedParts parts = new MixedParts(lot.dossier(), blends);
    SampleSize size = new SampleSize(lot.limit(Quantity.KERNELS_TOLD_APART));
    boolean isAnyLarge =
        samples.stream().anyMatch(each -> size.isEnough(BlendSample.count(each).telling()));
    List<BlendSample> sampled =
        samples.stream()
            .map(sample -> new BlendSample(sample, parts, stated, size, isAnyLarge))
            .toList();
    List<Verdict> verdicts = new ArrayList<>();
    if (blends.isEmpty()) {
      ofMixtureBoughtIn(lot, drawn).ifPresent(verdicts::add);
    } else {
      boolean isMeasured = sampled.stream().anyMatch(sample -> sample.settles(drawn));
      verdicts.add(mixed(lot.dossier(), blends, stated, isMeasured));
    }
    boolean isAnyDrawn = samples.stream().anyMatch(sample -> SamplingGate.isOfOne(drawn, sample));
    sampled.stream()
        .flatMap(
            sample ->
                sample.verdict().stream()
                    .filter(
                        verdict ->
                            !(isAnyDrawn && verdict instanceof Verdict.Met)
                                || SamplingGate.isOfOne(drawn, sample.sample())))
        .forEach(verdicts::add);
    GradedMixture.owed(lot, drawn).ifPresent(verdicts::add);
    List<Coded> aside = parts.setAside(stated.basis());
    return verdicts.stream().map(verdict -> verdict.withFurther(aside)).toList();
  }

  /** Nobody saw what went into it, so its share is told by a sample. Common practice, no source. */
  private static Optional<Verdict> ofMixtureBoughtIn(SeedLot lot, List<Sampling> drawn) {
    return lot.dossier()
        .declaredLot()
        .filter(declared -> !GradedMixture.isSampledSince(LocalDate.MIN, lot, drawn))
        .map(
            declared ->
                Findings.of(
                        Gate.BLEND_SHARE,
                        List.of(FactType.idOf(declared)),
                        new BlendFinding.BoughtIn())
                    .owed(
                        lot.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE),
                        new Evidence.SampleOfMixture()));
  }

  /** Whether the breeder's figures can be a ratio: an earlier release let in any tolerance. */
  private static boolean isRatio(Scheme scheme) {
    double share = scheme.pollinatorSharePercent();
    double tolerance = scheme.tolerancePercentPoints();
    return share > 0 && share <= MOST_PERCENT && tolerance >= 0 && tolerance <= share;
  }

  private static Verdict noRatio(SeedLot lot, Scheme scheme) {
    return Findings.of(
            Gate.BLEND_SHARE,
            List.of(scheme.factId()),
            new BlendFinding.ImpossibleRatio(
                Subject.hybrid(scheme.hybridId()),
                Amount.percent(scheme.pollinatorSharePercent()),
                Amount.percentagePoints(scheme.tolerancePercentPoints())))
        .owed(
            lot.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE),
            new Evidence.Correction(List.of(new Fact(scheme.factId()))));
  }

  /**
   * What was mixed in after seed of the mixture had gone out mends nothing for that seed: what was
   * there on each such day must hold by itself, and a sample of the whole says nothing of it.
   */
  private static Verdict mixed(
      Dossier dossier, List<Blend> blends, Stated stated, boolean measured) {
    List<Verdict> verdicts =
        Stream.concat(
                Stream.of(blends),
                dossier.edgesOut().stream()
                    .map(Edge::day)
                    .distinct()
                    .sorted()
                    .map(out -> mixedBy(out, blends))
                    .filter(mixed -> !mixed.isEmpty() && mixed.size() < blends.size()))
            .map(
                mixed -> mixed(new MixedParts(dossier, mixed), stated, measured && mixed == blends))
            .toList();
    return Stream.of(Verdict.NotMet.class, Verdict.Owed.class)
        .flatMap(worst -> verdicts.stream().filter(worst::isInstance))
        .findFirst()
        .orElse(verdicts.get(0));
  }

  private static List<Blend> mixedBy(LocalDate day, List<Blend> blends) {
    return blends.stream().filter(blend -> !FactType.dayOf(blend).isAfter(day)).toList();
  }

  /**
   * By what went in.
   *
   * @param measured whether a sample of the mixture shows by itself that it holds, so that no test
   *     of a part that is in doubt, or stands beside another, keeps it open
   */
  private static Verdict mixed(MixedParts parts, Stated stated, boolean measured) {
    Optional<PollinatorShare> share = parts.pollinatorShare(stated.basis());
    if (share.isEmpty()) {
      List<Evidence> missing = parts.missing(stated.basis());
      return Findings.of(
              Gate.BLEND_SHARE,
              parts.factIds(stated.basis()),
              new BlendFinding.ShareUnknown(stated.basis()),
              stated.ratio())
          .owed(
              Optional.of(stated.nearest(0)),
              missing.isEmpty() ? List.of(new Evidence.GerminationTestThatGrows()) : missing,
              List.of());
    }
    double percent = percent(share.get().share());
    Measured.Interval interval = Findings.measuredPercent(share.get().interval(CONFIDENCE));
    Findings found =
        Findings.of(
                Gate.BLEND_SHARE,
                parts.factIds(stated.basis()),
                new BlendFinding.Mixed(Amount.percent(percent), stated.basis()),
                stated.ratio())
            .and(otherBases(parts, stated));
    double lowest = percent(parts.shareBySingleTests(stated.basis(), false));
    double highest = percent(parts.shareBySingleTests(stated.basis(), true));
    boolean isOpen = stated.holds(percent) && !measured;
    if (isOpen && !(stated.holds(lowest) && stated.holds(highest))) {
      return found
          .and(new BlendFinding.BySingleTests(Amount.percent(lowest), Amount.percent(highest)))
          .owed(
              Optional.of(stated.nearest(percent)),
              List.of(new Evidence.LargerKernelSample()),
              List.of());
    }
    List<Evidence> inDoubt = parts.inDoubt(stated.basis());
    return isOpen && !inDoubt.isEmpty()
        ? found.owed(Optional.of(stated.nearest(percent)), inDoubt, List.of())
        : found.decided(
            stated.holds(percent),
            stated.measured(percent, interval),
            stated.nearest(percent),
            REMEDIES);
  }

  private static Optional<Finding> otherBases(MixedParts parts, Stated stated) {
    List<Statement> others =
        Arrays.stream(ShareBasis.values())
            .filter(basis -> basis != stated.basis())
            .flatMap(
                basis ->
                    parts.pollinatorShare(basis).stream()
                        .<Statement>map(
                            share ->
                                new BlendFinding.OnBasis(
                                    Amount.percent(percent(share.share())), basis)))
            .toList();
    return others.isEmpty() ? Optional.empty() : Optional.of(new BlendFinding.OnOtherBases(others));
  }

  /** What is no number stays none: rounding would make 0 % of it. */
  static double percent(double share) {
    return Double.isFinite(share)
        ? Math.round(100 * share * STEPS_IN_PERCENT) / STEPS_IN_PERCENT
        : Double.NaN;
  }

  /** The breeder's ratio with all tolerance that is allowed, percent. */
  record Stated(Scheme scheme, Optional<Limit> extra, SeedLot lot) {

    ShareBasis basis() {
      return scheme.shareBasis();
    }

    private double tolerance() {
      return scheme.tolerancePercentPoints() + extra.map(Limit::value).orElse(0.0);
    }

    double lowest() {
      return scheme.pollinatorSharePercent() - tolerance();
    }

    double highest() {
      return scheme.pollinatorSharePercent() + tolerance();
    }

    boolean holds(double percent) {
      return lowest() <= percent && percent <= highest();
    }

    Measured measured(double percent, Measured.Interval interval) {
      double margin = Math.min(percent - lowest(), highest() - percent);
      return new Measured(percent, Quantity.BLEND_SHARE.unit(), margin, Optional.of(interval));
    }

    Finding ratio() {
      return new BlendFinding.Ratio(
          Amount.percent(scheme.pollinatorSharePercent()),
          Amount.percentagePoints(scheme.tolerancePercentPoints()),
          extra.map(Bound::cited),
          new Fact(scheme.factId()));
    }

    /** The limit on the side that a share lies. */
    Limit nearest(double percent) {
      boolean low = percent < scheme.pollinatorSharePercent();
      return Limit.givenBy(
          Limit.BREEDER,
          lot.rulebook().edition(),
          scheme.statedOn().orElse(lot.on()),
          Quantity.BLEND_SHARE,
          low ? Limit.Sense.AT_LEAST : Limit.Sense.AT_MOST,
          low ? lowest() : highest());
    }
  }
}
