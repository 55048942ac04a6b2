package org.kornspur.processors.gates;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Verdict;

/**
 * The lots that were sown or put together are the components that the breeder's crossing scheme
 * asks for. The measured value is the number of lots, or of declared components, that are not.
 *
 * <p>Council Directive 66/402/EEC, Annexes I and II: sufficient identity of the components. The
 * scheme itself is the breeder's.
 */
final class ComponentsGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return switch (dossier.subject().kind()) {
      case CROP ->
          dossier
              .crop()
              .map(
                  crop ->
                      with(
                          new ComponentsCheck(dossier).crop(crop),
                          ImpossibleCategory.ofCrop(crop),
                          PollenParentAtHarvest.ofCrop(dossier, crop)))
              .orElse(List.of());
      case LOT ->
          with(
              new LotComponents(dossier).verdicts(),
              OpenPollinatedShare.judge(dossier, rulebook),
              MixtureRulebooks.owed(dossier),
              ImpossibleCategory.ofLot(dossier),
              UnknownComponent.ofLot(dossier),
              PollenParentAtHarvest.ofLot(dossier));
      case SOURCE, HYBRID, ENTERPRISE -> List.of();
    };
  }

  @SafeVarargs
  private static List<Verdict> with(List<Verdict> verdicts, Optional<Verdict>... besides) {
    return Stream.concat(Arrays.stream(besides).flatMap(Optional::stream), verdicts.stream())
        .toList();
  }
}
