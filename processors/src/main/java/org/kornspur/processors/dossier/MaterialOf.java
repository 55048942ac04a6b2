package org.kornspur.processors.dossier;

import java.util.Comparator;
import java.util.Optional;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.contract.CategoryRank;
import org.kornspur.ingest.contract.Subject;

/**
 * Works out what a crop or lot is: a crop from its declaration, a lot from the parents that it came
 * from, and from its declaration where it came in with no history here.
 */
final class MaterialOf {
  /**
   * Of seed of several years the latest governs. What else differs is wrong or owed and stays in an
   * order of its own, so that never the name of a lot decides.
   */
  private static final Comparator<Material> LATEST_YEAR_FIRST =
      Comparator.comparingInt(Material::cropYear).reversed().thenComparing(Material::toString);

  private MaterialOf() {}

  static Optional<Material> dossier(Dossier dossier) {
    return switch (dossier.subject().kind()) {
      case CROP -> dossier.crop().map(MaterialOf::crop);
      case LOT -> lot(dossier);
      case SOURCE, HYBRID, ENTERPRISE -> Optional.empty();
    };
  }

  private static Material crop(FieldCropDeclared crop) {
    return new Material(
        crop.getHybridId(),
        crop.getSeedComponentId(),
        crop.getRole() == CropRole.F1_MIXTURE ? Material.Kind.F1_SEED : Material.Kind.COMPONENT,
        crop.getCategory(),
        crop.getCropYear(),
        crop.getRulebookId());
  }

  private static Optional<Material> lot(Dossier dossier) {
    return blended(dossier)
        .or(() -> admixed(dossier))
        .or(
            () ->
                dossier
                    .believedParents()
                    .flatMap(p -> p.material().stream())
                    .min(LATEST_YEAR_FIRST))
        .or(() -> dossier.declaredLot().map(MaterialOf::declared));
  }

  static Material declared(LotDeclared lot) {
    return new Material(
        lot.getHybridId(),
        lot.getComponentId(),
        declaredKind(lot),
        lot.getCategory(),
        lot.getCropYear(),
        lot.getRulebookId());
  }

  /** By the category: a mixture of both components is basic seed, hybrid seed is certified. */
  private static Material.Kind declaredKind(LotDeclared lot) {
    if (!lot.getComponentId().equals(lot.getHybridId())) {
      return Material.Kind.COMPONENT;
    }
    return lot.getCategory() == Category.BASIC
        ? Material.Kind.TECHNICAL_MIXTURE
        : Material.Kind.F1_SEED;
  }

  private static Optional<Material> blended(Dossier dossier) {
    return dossier.facts(Blend.class).stream()
        .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(dossier.subject()))
        .flatMap(blend -> mixture(dossier, blend).stream())
        .min(LATEST_YEAR_FIRST);
  }

  /** Hybrid seed stays what it is when open-pollinated rye is added to it. */
  private static Optional<Material> admixed(Dossier dossier) {
    return dossier.facts(Admixture.class).stream()
        .filter(admixture -> Subject.lot(admixture.getIntoLotId()).equals(dossier.subject()))
        .flatMap(admixture -> admixture.getHybridLots().stream())
        .flatMap(part -> dossier.parent(Subject.lot(part.getLotId())).stream())
        .flatMap(report -> report.material().stream())
        .min(LATEST_YEAR_FIRST);
  }

  /** A mixture is basic seed, though seed of a higher category may go into it. */
  private static Optional<Material> mixture(Dossier dossier, Blend blend) {
    return blend.getFemales().stream()
        .flatMap(part -> dossier.parent(Subject.lot(part.getLotId())).stream())
        .flatMap(report -> report.material().stream())
        .min(LATEST_YEAR_FIRST)
        .map(
            female ->
                new Material(
                    blend.getHybridId(),
                    blend.getHybridId(),
                    Material.Kind.TECHNICAL_MIXTURE,
                    CategoryRank.lower(female.category(), Category.BASIC),
                    female.cropYear(),
                    female.rulebookId()));
  }
}
