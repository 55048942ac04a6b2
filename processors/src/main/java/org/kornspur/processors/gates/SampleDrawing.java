package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.SamplingIntensity;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * How the sample of a lot was drawn: from enough places, and heavy enough, grams. What was drawn
 * too thinly is owed again. The latest sampling counts.
 *
 * <p>Primary samples: Cereal Seed (Scotland) Regulations 2005, schedule 5 paragraph 6. Mass:
 * Council Directive 66/402/EEC, Annex III.
 */
final class SampleDrawing implements GateRule {

  @Override
  public Gate gate() {
    return Gate.SAMPLING;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.toBeUsed(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.SUBMITTED_SAMPLE_MASS).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    return lot.dossier()
        .latest(Sampling.class)
        .map(sampling -> List.of(verdict(sampling, limit)))
        .orElseGet(
            () ->
                lot.verdictsOfUnsplitOr(
                    Gate.SAMPLING,
                    () ->
                        Finding.missing(
                            Gate.SAMPLING,
                            "",
                            limit,
                            "the record of a sample drawn by an accredited sampler")));
  }

  private static Verdict verdict(Sampling sampling, Limit limit) {
    SamplingIntensity.Required required = required(sampling);
    Finding finding =
        new Finding(
            Gate.SAMPLING,
            "",
            sampling.getSubmittedSampleG(),
            Optional.empty(),
            List.of(sampling.getHeader().getFactId()),
            "%s drawn from %s kg where at least %d are asked for (%s), and %s g were sent in"
                .formatted(
                    Counted.of(sampling.getPrimarySamples(), "primary sample( was|s were)"),
                    Wording.number(sampling.getLotMassKg()),
                    required.primarySamples(),
                    required.source().cited(),
                    Wording.number(sampling.getSubmittedSampleG())));
    if (sampling.getPrimarySamples() < required.primarySamples()) {
      return finding.owed(
          limit,
          "a new sample of at least " + Counted.of(required.primarySamples(), "primary sample(s)"),
          "the sample does not stand for the lot");
    }
    return limit.holds(sampling.getSubmittedSampleG())
        ? finding.against(limit, "")
        : finding.owed(limit, "a new sample that weighs enough", "the sample is too light");
  }

  private static SamplingIntensity.Required required(Sampling sampling) {
    return sampling.getContainers() == null
        ? SamplingIntensity.inBulk(sampling.getLotMassKg())
        : SamplingIntensity.inContainers(sampling.getContainers(), sampling.getLotMassKg());
  }
}
