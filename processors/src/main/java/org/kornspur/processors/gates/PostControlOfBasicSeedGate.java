package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.PostControlFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Basic seed that went into a technical mixture has been in post-control, so that its result can be
 * taken into account before the certified seed that comes of it is certified. Nothing is owed for
 * the basic seed itself.
 *
 * <p>A result of the lot that this one was conditioned, split or merged from is a result of this
 * one too: it is the same harvest.
 */
final class PostControlOfBasicSeedGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook)
        .filter(PostControlOfBasicSeedGate::isAsked)
        .flatMap(lot -> lot.limit(Quantity.POST_CONTROL_BEFORE_CERTIFICATION))
        .map(limit -> List.of(judge(dossier, limit)))
        .orElse(List.of());
  }

  /** Of a mixture that was bought in the components are not here, so it is asked of itself. */
  static boolean isAsked(SeedLot lot) {
    boolean isMixtureBoughtIn =
        lot.material().kind() == Material.Kind.TECHNICAL_MIXTURE
            && lot.dossier().declaredLot().isPresent();
    return isMixtureBoughtIn
        || lot.dossier().edgesOut().stream().anyMatch(edge -> edge.by() == FactType.BLEND);
  }

  private static Verdict judge(Dossier dossier, Limit limit) {
    List<String> results = dossier.postControls();
    if (results.isEmpty()) {
      return Findings.missing(
          Gate.POST_CONTROL_OF_BASIC_SEED, limit, new Evidence.PostControlOfBasicSeed());
    }
    return Findings.of(
            Gate.POST_CONTROL_OF_BASIC_SEED,
            results,
            new PostControlFinding.Results(results.size()))
        .against(results.size(), limit, List.of());
  }
}
