package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.ComponentsFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A lot that was bought in as a component of a hybrid of which the breeder's scheme knows no such
 * component. What grew here is held against the scheme at its crop; open-pollinated rye is no
 * component and may be none of the scheme. Common practice, no source.
 */
final class UnknownComponent {
  private static final GateAspect AT =
      GateAspect.of(Gate.COMPONENTS, "component", new Aspect.Component());

  private UnknownComponent() {}

  static Optional<Verdict> ofLot(Dossier dossier) {
    return dossier
        .declaredLot()
        .flatMap(
            declared ->
                dossier
                    .declaredMaterial()
                    .filter(material -> material.kind() == Material.Kind.COMPONENT)
                    .filter(material -> isUnknown(dossier, material))
                    .map(material -> owed(FactType.idOf(declared), material)));
  }

  private static boolean isUnknown(Dossier dossier, Material material) {
    return dossier
            .scheme()
            .filter(scheme -> !scheme.components().containsKey(material.seedId()))
            .isPresent()
        && !OpenPollinatedRye.is(dossier, material);
  }

  private static Verdict owed(String factId, Material material) {
    return Findings.of(
            AT,
            List.of(factId),
            new ComponentsFinding.NotInScheme(
                material.seedId(), Subject.hybrid(material.hybridId())))
        .owed(new Evidence.Correction(List.of(new Fact(factId))));
  }
}
