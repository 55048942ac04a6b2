package org.kornspur.api.query.view;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.standing.SeedMaterial;

@Schema(description = "What a crop or lot is")
public record MaterialView(
    @Schema(examples = "HYB-AURUM") String hybridId,
    @Schema(description = "Component, or the hybrid's id for F1 seed and technical mixtures")
        String seedId,
    @Schema(
            description = "Component seed, technical mixture of female and pollinator, or F1 seed",
            enumeration = {"COMPONENT", "TECHNICAL_MIXTURE", "F1_SEED"})
        String kind,
    @Schema(enumeration = {"BREEDER", "PRE_BASIC", "BASIC", "CERTIFIED"}) String category,
    @Schema(description = "Year of harvest", examples = "2024") int cropYear,
    @Schema(examples = "EU") String rulebookId) {

  static MaterialView of(SeedMaterial material) {
    return new MaterialView(
        material.getHybridId(),
        material.getSeedId(),
        material.getKind(),
        material.getCategory(),
        material.getCropYear(),
        material.getRulebookId());
  }
}
