package org.kornspur.processors.dossier;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.contract.Subject;

/**
 * Works out what a crop or lot is from its own declaration, or from the parents that it came from.
 */
final class MaterialOf {

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
    return dossier
        .declaredLot()
        .map(MaterialOf::declared)
        .or(() -> blended(dossier))
        .or(() -> admixed(dossier))
        .or(() -> dossier.believedParents().flatMap(p -> p.material().stream()).findFirst());
  }

  private static Material declared(LotDeclared lot) {
    return new Material(
        lot.getHybridId(),
        lot.getComponentId(),
        lot.getComponentId().equals(lot.getHybridId())
            ? Material.Kind.F1_SEED
            : Material.Kind.COMPONENT,
        lot.getCategory(),
        lot.getCropYear(),
        lot.getRulebookId());
  }

  private static Optional<Material> blended(Dossier dossier) {
    return dossier.facts(Blend.class).stream()
        .filter(blend -> Subject.lot(blend.getBlendLotId()).equals(dossier.subject()))
        .findFirst()
        .flatMap(blend -> mixture(dossier, blend));
  }

  /** Hybrid seed stays what it is when open-pollinated rye is added to it. */
  private static Optional<Material> admixed(Dossier dossier) {
    return dossier.facts(Admixture.class).stream()
        .filter(admixture -> Subject.lot(admixture.getIntoLotId()).equals(dossier.subject()))
        .flatMap(admixture -> admixture.getHybridLots().stream())
        .map(part -> Subject.lot(part.getLotId()))
        .sorted()
        .flatMap(lot -> dossier.parent(lot).stream())
        .flatMap(report -> report.material().stream())
        .findFirst();
  }

  private static Optional<Material> mixture(Dossier dossier, Blend blend) {
    List<Subject> females =
        blend.getFemales().stream().map(part -> Subject.lot(part.getLotId())).sorted().toList();
    return females.stream()
        .flatMap(female -> dossier.parent(female).stream())
        .flatMap(report -> report.material().stream())
        .findFirst()
        .map(
            female ->
                new Material(
                    blend.getHybridId(),
                    blend.getHybridId(),
                    Material.Kind.TECHNICAL_MIXTURE,
                    female.category(),
                    female.cropYear(),
                    female.rulebookId()));
  }
}
