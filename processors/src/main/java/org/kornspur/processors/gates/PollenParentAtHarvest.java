package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.Harvest;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.ComponentsFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Whether the strips of the pollen parent were gone when seed of a sterile component was harvested
 * beside them: else their seed is among it. The crop owes an answer for each of its harvests; the
 * lot that was harvested with the strips standing is not what it is called. Of hybrid seed from a
 * sown mixture that is not asked, nor of fertile components, which are grown alone.
 *
 * <p>Common practice, no source; the texts ask for sufficient identity and purity of the component.
 */
final class PollenParentAtHarvest {
  private static final GateAspect AT =
      GateAspect.of(
          Gate.COMPONENTS, "pollen parent at harvest", new Aspect.PollenParentAtHarvest());

  private PollenParentAtHarvest() {}

  /** Empty for crops without strips, and while nothing is harvested. */
  static Optional<Verdict> ofCrop(Dossier dossier, FieldCropDeclared crop) {
    List<Harvest> harvests = dossier.facts(Harvest.class);
    if (harvests.isEmpty() || crop.getRole() != CropRole.STERILE_FEMALE) {
      return Optional.empty();
    }
    List<Harvest> unknown =
        harvests.stream().filter(harvest -> harvest.getPollenParentRemoved() == null).toList();
    return Optional.of(
        unknown.isEmpty()
            ? decided(true, harvests, new ComponentsFinding.PollenParentAnswered())
            : Findings.of(AT, ids(unknown), new ComponentsFinding.PollenParentUnknown())
                .owed(new Evidence.PollenParentAtHarvest()));
  }

  /**
   * Empty for lots that no sterile component was harvested into with the strips standing. A crop
   * that has not told its role yet may have strips.
   */
  static Optional<Verdict> ofLot(Dossier dossier) {
    List<Harvest> standing =
        dossier.facts(Harvest.class).stream()
            .filter(harvest -> Subject.lot(harvest.getLotId()).equals(dossier.subject()))
            .filter(harvest -> Boolean.FALSE.equals(harvest.getPollenParentRemoved()))
            .filter(harvest -> mayHaveStrips(dossier, harvest))
            .toList();
    return dossier
        .material()
        .filter(material -> material.kind() == Material.Kind.COMPONENT)
        .filter(material -> !standing.isEmpty())
        .map(material -> decided(false, standing, new ComponentsFinding.PollenParentStood()));
  }

  private static boolean mayHaveStrips(Dossier dossier, Harvest harvest) {
    return dossier
        .parent(Subject.crop(harvest.getCropId()))
        .flatMap(Report.FromParent::cropRole)
        .map(role -> role == CropRole.STERILE_FEMALE)
        .orElse(true);
  }

  private static Verdict decided(boolean met, List<Harvest> harvests, ComponentsFinding finding) {
    return Findings.of(AT, ids(harvests), finding)
        .mustBeNone(
            met ? 0 : harvests.size(),
            "wrong",
            new Advice.HarvestAsGrain(),
            new Advice.AuthorityDecides());
  }

  private static List<String> ids(List<Harvest> harvests) {
    return FactType.idsOf(harvests);
  }
}
