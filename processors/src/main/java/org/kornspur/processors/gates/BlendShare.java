package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.contract.Blend;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report.Scheme;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Share of pollinator in a technical mixture, percent on the basis that the breeder states, held
 * against the breeder's ratio with its tolerance and what the rulebook adds to it.
 *
 * <p>Seed Ordinance (SaatV), Annex 2 no. 1.4.2.2: the male share must not clearly exceed the
 * breeder's stated ratio; the law gives no number. Judged by what went in, and by a sample in which
 * kernels were told apart: that one fails when its whole interval lies outside, and does not settle
 * the matter while only its estimate does.
 */
final class BlendShare implements GateRule {
  private static final double CONFIDENCE = 0.95;

  /** Greatest share of pollinator that the contract takes. */
  private static final double MOST_PERCENT = 50;

  /** Shares are compared to a millionth of a percent: beyond that lies only binary arithmetic. */
  private static final double STEPS_IN_PERCENT = 1e6;

  private static final String REMEDY =
      "Correct the mixture with seed of the component that is short, or do not sow it.";

  @Override
  public Gate gate() {
    return Gate.BLEND_SHARE;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook)
        .filter(lot -> lot.material().kind() == Material.Kind.TECHNICAL_MIXTURE)
        .map(BlendShare::judge)
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot) {
    List<Blend> blends =
        lot.dossier().facts(Blend.class).stream()
            .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(lot.dossier().subject()))
            .toList();
    List<BlendComposition> samples = lot.dossier().facts(BlendComposition.class);
    if (blends.isEmpty() && samples.isEmpty()) {
      return List.of();
    }
    Optional<Scheme> scheme = lot.dossier().scheme();
    if (scheme.isEmpty()) {
      return List.of(
          new Verdict.Owed(
              Gate.BLEND_SHARE,
              "",
              "the master data of hybrid " + lot.material().hybridId(),
              lot.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE),
              List.of(),
              "The breeder's ratio of hybrid %s is not on record. Record the hybrid's master data."
                  .formatted(lot.material().hybridId())));
    }
    if (!isRatio(scheme.get())) {
      return List.of(noRatio(lot, scheme.get()));
    }
    Stated stated = Stated.of(lot, scheme.get());
    MixedParts parts = new MixedParts(lot.dossier(), blends);
    List<Verdict> verdicts = new ArrayList<>();
    if (!blends.isEmpty()) {
      verdicts.add(mixed(parts, stated));
    }
    samples.forEach(sample -> verdicts.add(sampled(sample, parts, stated)));
    return verdicts;
  }

  /** Whether the breeder's figures can be a ratio: an earlier release let in any tolerance. */
  private static boolean isRatio(Scheme scheme) {
    double share = scheme.pollinatorSharePercent();
    double tolerance = scheme.tolerancePercentPoints();
    return share > 0 && share <= MOST_PERCENT && tolerance >= 0 && tolerance <= share;
  }

  private static Verdict noRatio(SeedLot lot, Scheme scheme) {
    return new Verdict.Owed(
        Gate.BLEND_SHARE,
        "",
        "a correction of fact " + scheme.factId(),
        lot.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE),
        List.of(scheme.factId()),
        "The breeder's ratio of hybrid %s is %s %% with a tolerance of %s, which cannot be. Correct the hybrid's master data, fact %s."
            .formatted(
                scheme.hybridId(),
                scheme.pollinatorSharePercent(),
                scheme.tolerancePercentPoints(),
                scheme.factId()));
  }

  private static Verdict mixed(MixedParts parts, Stated stated) {
    Optional<org.kornspur.processors.statistics.BlendShare> share =
        parts.pollinatorShare(stated.basis());
    if (share.isEmpty()) {
      String missing =
          parts.missing(stated.basis()).isEmpty()
              ? "a new germination test: none of the seed grows"
              : String.join(", ", parts.missing(stated.basis()));
      return new Verdict.Owed(
          Gate.BLEND_SHARE,
          "",
          missing,
          Optional.of(stated.nearest(0)),
          parts.factIds(stated.basis()),
          "The share of pollinator in %s cannot be told yet; the limit is %s (%s). Bring %s."
              .formatted(
                  words(stated.basis()), stated.wording(), stated.nearest(0).citation(), missing));
    }
    double percent = percent(share.get().share());
    return new Finding(
            Gate.BLEND_SHARE,
            "",
            percent,
            Optional.of(Finding.measuredPercent(share.get().interval(CONFIDENCE))),
            parts.factIds(stated.basis()),
            "Pollinator makes up %s %% of %s by what went in%s"
                .formatted(
                    Wording.number(percent), words(stated.basis()), otherBases(parts, stated)))
        .decided(stated.holds(percent), stated.margin(percent), stated.nearest(percent), REMEDY);
  }

  private static String otherBases(MixedParts parts, Stated stated) {
    String others =
        Arrays.stream(ShareBasis.values())
            .filter(basis -> basis != stated.basis())
            .flatMap(
                basis ->
                    parts
                        .pollinatorShare(basis)
                        .map(
                            share ->
                                "%s %% of %s"
                                    .formatted(
                                        Wording.number(percent(share.share())), words(basis)))
                        .stream())
            .collect(Collectors.joining(", "));
    return others.isEmpty() ? "" : " (" + others + ")";
  }

  private static Verdict sampled(BlendComposition sample, MixedParts parts, Stated stated) {
    String factId = sample.getHeader().getFactId();
    String aspect = "sample " + sample.getSampleId() + ", fact " + factId;
    int kernels = sample.getKernelsExamined();
    int pollinator = sample.getPollinatorKernels();
    if (pollinator > kernels) {
      return Finding.impossible(
          Gate.BLEND_SHARE,
          aspect,
          stated.nearest(0),
          pollinator,
          kernels,
          "pollinator kernels",
          factId);
    }
    Optional<Double> factor = parts.ratioFactor(basisOf(sample.getMethod()), stated.basis());
    if (factor.isEmpty()) {
      return new Verdict.Owed(
          Gate.BLEND_SHARE,
          aspect,
          "thousand-kernel weight and germination of the lots that went in",
          Optional.of(stated.nearest(0)),
          List.of(factId),
          "The sample counts %s and the breeder's ratio is one of %s (%s). Bring thousand-kernel weight and germination of the lots that went in, so that the one can be had from the other."
              .formatted(
                  words(basisOf(sample.getMethod())),
                  words(stated.basis()),
                  stated.nearest(0).citation()));
    }
    Interval counted = ExactBinomial.interval(pollinator, kernels, CONFIDENCE);
    double percent = onBasis((double) pollinator / kernels, factor.get());
    Measured.Interval interval =
        new Measured.Interval(
            onBasis(counted.lower(), factor.get()),
            onBasis(counted.upper(), factor.get()),
            CONFIDENCE);
    Finding finding =
        new Finding(
            Gate.BLEND_SHARE,
            aspect,
            percent,
            Optional.of(interval),
            List.of(factId),
            "Pollinator makes up %s %% of %s by a sample (%d of %s; between %s and %s %% with %s confidence)"
                .formatted(
                    Wording.number(percent),
                    words(stated.basis()),
                    pollinator,
                    Counted.of(kernels, "kernel(s)"),
                    Wording.number(interval.lower()),
                    Wording.number(interval.upper()),
                    Wording.percent(CONFIDENCE)));
    boolean clearlyOutside =
        interval.upper() < stated.lowest() || interval.lower() > stated.highest();
    if (stated.holds(percent) || clearlyOutside) {
      return finding.decided(
          stated.holds(percent), stated.margin(percent), stated.nearest(percent), REMEDY);
    }
    return finding.owed(
        stated.nearest(percent),
        "a larger sample of kernels told apart",
        "that is outside, but not clearly");
  }

  private static ShareBasis basisOf(CompositionMethod method) {
    return switch (method) {
      case MARKER, KERNEL_COLOUR -> ShareBasis.KERNELS;
      case GROW_OUT -> ShareBasis.VIABLE_KERNELS;
    };
  }

  /** A share by count, as percent on the basis whose ratio is {@code factor} times as large. */
  private static double onBasis(double share, double factor) {
    return percent(share * factor / (share * factor + (1 - share)));
  }

  /** What is no number stays none: rounding would make 0 % of it. */
  private static double percent(double share) {
    return Double.isFinite(share)
        ? Math.round(100 * share * STEPS_IN_PERCENT) / STEPS_IN_PERCENT
        : Double.NaN;
  }

  private static String words(ShareBasis basis) {
    return switch (basis) {
      case MASS -> "the mass";
      case KERNELS -> "the kernels";
      case VIABLE_KERNELS -> "the viable kernels";
    };
  }

  /** The breeder's ratio with all tolerance that is allowed, percent. */
  private record Stated(Scheme scheme, Optional<Limit> extra, SeedLot lot) {

    static Stated of(SeedLot lot, Scheme scheme) {
      return new Stated(scheme, lot.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE), lot);
    }

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

    double margin(double percent) {
      return Math.min(percent - lowest(), highest() - percent);
    }

    String wording() {
      return "%s to %s %% of %s"
          .formatted(Wording.number(lowest()), Wording.number(highest()), words(basis()));
    }

    /** The limit on the side that a share lies. */
    Limit nearest(double percent) {
      boolean low = percent < scheme.pollinatorSharePercent();
      String added =
          extra
              .map(limit -> "; %s beyond it (%s)".formatted(limit.wording(), limit.citation()))
              .orElse("");
      return new Limit(
          Quantity.BLEND_SHARE,
          low ? Limit.Sense.AT_LEAST : Limit.Sense.AT_MOST,
          low ? lowest() : highest(),
          Quantity.BLEND_SHARE.unit(),
          wording(),
          "breeder",
          lot.rulebook().edition(),
          "master data of hybrid %s, fact %s".formatted(scheme.hybridId(), scheme.factId()),
          "ratio %s %% with a tolerance of %s %s%s"
              .formatted(
                  Wording.number(scheme.pollinatorSharePercent()),
                  Wording.number(scheme.tolerancePercentPoints()),
                  Counted.noun(scheme.tolerancePercentPoints(), "percentage point(s)"),
                  added),
          lot.on(),
          Optional.empty(),
          true,
          "",
          Optional.empty());
    }
  }
}
