package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.MethodErrors;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.statistics.MarkerCorrection;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Share of pollinator by a sample of a mixture in which kernels were told apart. It fails when its
 * whole interval lies outside the ratio, and does not settle the matter while only its estimate
 * does, or while fewer kernels were told apart than the rulebook asks for.
 *
 * <p>Where the breeder's ratio is one of mass, kernels that were weighed as they were told apart
 * take the count to it; what the lots that went in weigh can then still speak against the mixture.
 *
 * <p>A marker test errs in both directions, so its share must hold as it was counted and with the
 * errors of the method taken out, and fails by either; see {@link MethodCount}.
 */
record BlendSample(
    BlendComposition sample,
    MixedParts parts,
    BlendShareGate.Stated stated,
    SampleSize size,
    boolean besideLarge) {

  /** A share on the breeder's basis, percent. */
  private record Estimate(double percent, Measured.Interval interval) {
    boolean isClearlyInside(BlendShareGate.Stated stated) {
      return stated.holds(interval.lower()) && stated.holds(interval.upper());
    }

    boolean isClearlyOutside(BlendShareGate.Stated stated) {
      return interval.upper() < stated.lowest() || interval.lower() > stated.highest();
    }
  }

  /**
   * Whether it shows by itself that the mixture holds, with its whole interval: counted on the
   * breeder's basis, so that no test of a part comes into it, in enough kernels of a sample that
   * was drawn well. Common practice, no source.
   *
   * @param drawn samples that stand for the mixture
   */
  boolean settles(List<Sampling> drawn) {
    if (sample.getPollinatorKernels() > sample.getKernelsExamined()
        || basisOf(sample.getMethod()) != stated.basis()
        || !SamplingGate.isOfOne(drawn, sample)) {
      return false;
    }
    MethodCount count = count(sample);
    return size.isEnough(count.telling())
        && count.owed(byCount(stated.highest(), 1)).isEmpty()
        && Stream.concat(Stream.of(count.asCounted()), count.corrected().stream())
            .allMatch(share -> estimate(share, 1).isClearlyInside(stated));
  }

  /** Empty where it is small and says no more than a large one beside it. */
  Optional<Verdict> verdict() {
    String factId = sample.getHeader().getFactId();
    GateAspect at =
        GateAspect.of(
            Gate.BLEND_SHARE,
            "sample " + sample.getSampleId() + ", fact " + factId,
            new Aspect.Sample(sample.getSampleId(), new Fact(factId)));
    int kernels = sample.getKernelsExamined();
    int pollinator = sample.getPollinatorKernels();
    if (pollinator > kernels) {
      return Optional.of(
          Findings.impossible(
              at,
              stated.nearest(0),
              Thing.POLLINATOR_KERNELS,
              pollinator,
              kernels,
              factId,
              stated.ratio()));
    }
    ShareBasis countedBasis = basisOf(sample.getMethod());
    Optional<Double> byParts = parts.ratioFactor(countedBasis, stated.basis());
    Optional<WeighedShare> weighed = WeighedShare.of(sample, countedBasis, stated.basis());
    if (weighed.isPresent()) {
      return verdict(at, weighed.get(), byParts);
    }
    return byParts
        .map(factor -> verdict(at, count(sample), factor, inDoubt(), List.of()))
        .orElseGet(
            () ->
                Optional.of(
                    Findings.of(
                            at,
                            List.of(factId),
                            new BlendFinding.OtherBasis(countedBasis, stated.basis()),
                            stated.ratio())
                        .owed(
                            stated.nearest(0),
                            parts.none()
                                ? new Evidence.CompositionOnStatedBasis()
                                : new Evidence.KernelWeightAndGermination())));
  }

  /** By what was weighed in the sample; where the parts say that it does not hold, by them. */
  private Optional<Verdict> verdict(GateAspect at, WeighedShare weighed, Optional<Double> byParts) {
    Optional<Finding> unusual = weighed.unusual(stated.lot());
    if (unusual.isPresent()) {
      Fact fact = new Fact(FactType.idOf(sample));
      return Optional.of(
          Findings.of(at, List.of(fact.factId()), unusual.get(), stated.ratio())
              .owed(stated.nearest(0), new Evidence.Correction(List.of(fact))));
    }
    return byParts
        .flatMap(factor -> verdict(at, count(sample), factor, List.of(), List.of()))
        .filter(verdict -> !(verdict instanceof Verdict.Met))
        .or(
            () ->
                verdict(
                    at,
                    count(sample),
                    weighed.ratioFactor(),
                    List.of(),
                    List.of(weighed.finding())));
  }

  static MethodCount count(BlendComposition sample) {
    return new MethodCount(
        sample.getPollinatorKernels(), sample.getKernelsExamined(), MethodErrors.of(sample));
  }

  private Optional<Verdict> verdict(
      GateAspect at,
      MethodCount count,
      double factor,
      List<Evidence> inDoubt,
      List<Finding> further) {
    Estimate counted = estimate(count.asCounted(), factor);
    double most = byCount(stated.highest(), factor);
    Optional<Estimate> corrected =
        count.corrected().filter(share -> count.canTell(most)).map(s -> estimate(s, factor));
    Findings found =
        Findings.of(
                at,
                List.of(sample.getHeader().getFactId()),
                new BlendFinding.Sampled(
                    Amount.percent(counted.percent),
                    stated.basis(),
                    count.found(),
                    count.examined(),
                    Amount.percent(counted.interval.lower()),
                    Amount.percent(counted.interval.upper()),
                    Amount.percent(100 * BlendShareGate.CONFIDENCE)),
                stated.ratio())
            .and(further)
            .and(count.findings(most));
    Optional<Estimate> outside =
        Stream.concat(Stream.of(counted), corrected.stream())
            .filter(estimate -> estimate.isClearlyOutside(stated))
            .findFirst();
    if (outside.isPresent()) {
      return Optional.of(decided(found, false, outside.get()));
    }
    boolean holds =
        Stream.concat(Stream.of(counted), corrected.stream())
            .allMatch(estimate -> stated.holds(estimate.percent));
    boolean isEnough = size.isEnough(count.telling());
    if (holds && !isEnough && besideLarge) {
      return Optional.empty();
    }
    Optional<Evidence> larger =
        holds && isEnough ? Optional.empty() : Optional.of(new Evidence.LargerKernelSample());
    List<Evidence> owed =
        Stream.of(larger.stream(), count.owed(most).stream(), inDoubt.stream())
            .flatMap(evidence -> evidence)
            .toList();
    Estimate best = corrected.orElse(counted);
    return Optional.of(
        owed.isEmpty()
            ? decided(found, true, best)
            : (holds ? found : found.and(new BlendFinding.NotClearlyOutside()))
                .and(size.tooSmall(count.telling()))
                .owed(Optional.of(stated.nearest(best.percent)), owed, List.of()));
  }

  /** Tests that take its count to the breeder's basis and prove nothing yet. */
  private List<Evidence> inDoubt() {
    return basisOf(sample.getMethod()) == stated.basis()
        ? List.of()
        : Stream.of(basisOf(sample.getMethod()), stated.basis())
            .flatMap(basis -> parts.inDoubt(basis).stream())
            .distinct()
            .toList();
  }

  private Verdict decided(Findings found, boolean holds, Estimate by) {
    return found.decided(
        holds,
        stated.measured(by.percent, by.interval),
        stated.nearest(by.percent),
        BlendShareGate.REMEDIES);
  }

  private static Estimate estimate(MarkerCorrection.Share share, double factor) {
    return new Estimate(
        onBasis(share.share(), factor),
        new Measured.Interval(
            onBasis(share.interval().lower(), factor),
            onBasis(share.interval().upper(), factor),
            BlendShareGate.CONFIDENCE));
  }

  private static ShareBasis basisOf(CompositionMethod method) {
    return switch (method) {
      case MARKER, KERNEL_COLOUR -> ShareBasis.KERNELS;
      case GROW_OUT -> ShareBasis.VIABLE_KERNELS;
    };
  }

  /** A share by count, as percent on the basis whose ratio is {@code factor} times as large. */
  private static double onBasis(double share, double factor) {
    return BlendShareGate.percent(share * factor / (share * factor + (1 - share)));
  }

  /** The share by count that comes to so many percent on that basis. */
  private static double byCount(double percent, double factor) {
    double share = percent / 100;
    return share / (share + (1 - share) * factor);
  }
}
