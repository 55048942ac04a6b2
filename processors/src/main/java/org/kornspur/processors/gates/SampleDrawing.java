package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.finding.SamplingFinding;
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
                    () -> Found.missing(Gate.SAMPLING, limit, new Evidence.Sampling())));
  }

  private static Verdict verdict(Sampling sampling, Limit limit) {
    SamplingIntensity.Required required = required(sampling);
    double submittedG = sampling.getSubmittedSampleG();
    Found found =
        Found.of(
            Gate.SAMPLING,
            List.of(sampling.getHeader().getFactId()),
            new SamplingFinding.Drawn(
                sampling.getPrimarySamples(),
                required.primarySamples(),
                Amount.kilograms(sampling.getLotMassKg()),
                Reference.of(required.source()),
                Amount.grams(submittedG)));
    if (sampling.getPrimarySamples() < required.primarySamples()) {
      return found
          .and(new SamplingFinding.TooFewPrimarySamples())
          .owed(limit, new Evidence.SampleOfPrimarySamples(required.primarySamples()));
    }
    return limit.holds(submittedG)
        ? found.against(submittedG, limit, List.of())
        : found.and(new SamplingFinding.TooLight()).owed(limit, new Evidence.HeavierSample());
  }

  private static SamplingIntensity.Required required(Sampling sampling) {
    return sampling.getContainers() == null
        ? SamplingIntensity.inBulk(sampling.getLotMassKg())
        : SamplingIntensity.inContainers(sampling.getContainers(), sampling.getLotMassKg());
  }
}
