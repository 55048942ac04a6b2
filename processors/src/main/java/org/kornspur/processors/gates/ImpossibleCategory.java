package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Category;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.RuleFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.CropCategories;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Whether a crop in its role, or seed of its kind, can have the category that it was given. One
 * that cannot is wrongly declared, and its correction is owed.
 *
 * <p>Sources as for {@link CropCategories}. A technical mixture is basic seed by the words of the
 * law: Seed Ordinance (SaatV), Annex 5 no. 1.
 */
final class ImpossibleCategory {
  private static final GateAspect AT =
      GateAspect.of(Gate.COMPONENTS, "category", new Aspect.Category());

  private ImpossibleCategory() {}

  static boolean isPossible(Material.Kind kind, Category category) {
    return switch (kind) {
      case COMPONENT -> CropCategories.OF_COMPONENTS.contains(category);
      case TECHNICAL_MIXTURE -> category == Category.BASIC;
      case F1_SEED -> category == Category.CERTIFIED;
    };
  }

  /** What is owed for a crop; empty where its category is possible. */
  static Optional<Verdict> ofCrop(FieldCropDeclared crop) {
    if (CropCategories.of(crop.getRole()).contains(crop.getCategory())) {
      return Optional.empty();
    }
    return Optional.of(
        owed(
            new RuleFinding.CropCannotBe(crop.getRole(), crop.getCategory()),
            List.of(crop.getHeader().getFactId())));
  }

  /**
   * What is owed for a lot that facts of its own make what it is; what a parent made it is owed by
   * the parent and inherited.
   */
  static Optional<Verdict> ofLot(Dossier dossier) {
    List<String> factIds = declaring(dossier);
    return dossier
        .material()
        .filter(material -> !factIds.isEmpty())
        .filter(material -> !isPossible(material.kind(), material.category()))
        .filter(material -> !OpenPollinatedRye.is(dossier, material))
        .map(
            material ->
                owed(new RuleFinding.SeedCannotBe(material.kind(), material.category()), factIds));
  }

  private static List<String> declaring(Dossier dossier) {
    return Stream.of(
            dossier.declaredLot().stream(),
            dossier.facts(Blend.class).stream()
                .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(dossier.subject())),
            dossier.facts(Downgrade.class).stream())
        .flatMap(facts -> facts)
        .map(FactType::idOf)
        .distinct()
        .sorted()
        .toList();
  }

  private static Verdict owed(RuleFinding finding, List<String> factIds) {
    return Findings.of(AT, factIds, finding).owed(new Evidence.Correction(Fact.each(factIds)));
  }
}
