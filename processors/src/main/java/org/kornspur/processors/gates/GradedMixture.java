package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A technical mixture that was sieved or otherwise graded after it was mixed. Kernels of one
 * component are smaller than those of the other, so what was taken out shifts the share of each,
 * and only a sample of what is left tells it. Common practice, no source.
 */
final class GradedMixture {

  private GradedMixture() {}

  /**
   * What is owed of a mixture that was graded and of which no kernels were told apart since.
   *
   * @param good samples that stand for the mixture
   */
  static Optional<Verdict> owed(SeedLot mixture, List<Sampling> good) {
    List<Edge> graded =
        mixture.dossier().edgesIn().stream()
            .filter(edge -> SameSeed.isGradedBy(edge, mixture.dossier()))
            .toList();
    List<String> gradings = graded.stream().map(Edge::factId).distinct().sorted().toList();
    return graded.stream()
        .map(Edge::day)
        .max(Comparator.naturalOrder())
        .filter(last -> !isSampledSince(last, mixture, good))
        .map(
            last ->
                Findings.of(
                        Gate.BLEND_SHARE, gradings, new BlendFinding.Graded(Fact.each(gradings)))
                    .owed(
                        mixture.limit(Quantity.BLEND_SHARE_EXTRA_TOLERANCE),
                        new Evidence.CompositionSample()));
  }

  /** Whether kernels were told apart of a sample that stands for the mixture as it was that day. */
  static boolean isSampledSince(LocalDate day, SeedLot mixture, List<Sampling> good) {
    List<Sampling> drawn =
        good.stream().filter(sampling -> !FactType.dayOf(sampling).isBefore(day)).toList();
    boolean isSamplingAsked = mixture.limit(Quantity.SUBMITTED_SAMPLE_MASS).isPresent();
    return mixture.dossier().facts(BlendComposition.class).stream()
        .anyMatch(
            sample ->
                isSamplingAsked
                    ? SamplingGate.isOfOne(drawn, sample)
                    : !FactType.dayOf(sample).isBefore(day));
  }
}
