package org.kornspur.processors.plan.field;

import java.time.Instant;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.standards.Rulebook;

/**
 * A crop of a plan, that no field is declared for yet. Seed that is sown again is grown as basic
 * seed, the hybrid as certified seed, as the supply of a plan counts them.
 *
 * @param seedId component, or the hybrid for its own seed
 * @param pollenId the only pollen wanted in it
 * @param year of harvest
 * @param rulebook that it will be judged under
 */
public record PlannedCrop(
    String seedId, String pollenId, CropRole role, Category category, int year, Rulebook rulebook) {

  /**
   * The crop of a seed.
   *
   * @return empty for seed that cannot be grown
   */
  public static Optional<PlannedCrop> of(
      MultiplicationChain.Step step, int year, Rulebook rulebook) {
    CropRole role =
        switch (step.generation()) {
          case STERILE_LINE, STERILE_SINGLE_CROSS -> CropRole.STERILE_FEMALE;
          case MAINTAINER_LINE -> CropRole.MAINTAINER;
          case FERTILE_LINE -> CropRole.FERTILE_LINE;
          case RESTORER_POLLINATOR -> CropRole.POLLINATOR;
          case F1_SEED -> CropRole.F1_MIXTURE;
        };
    Category category = role == CropRole.F1_MIXTURE ? Category.CERTIFIED : Category.BASIC;
    return step.pollenId()
        .map(pollenId -> new PlannedCrop(step.seedId(), pollenId, role, category, year, rulebook));
  }

  /** As it would be declared on a field, so that the gates can be asked of it. */
  FieldCropDeclared declaredOn(FieldName field, Outline outline) {
    return FieldCropDeclared.newBuilder()
        .setHeader(
            FactHeader.newBuilder()
                .setFactId(PLANNED)
                .setRecordedBy(PLANNED)
                .setHappenedAt(Instant.EPOCH)
                .setRecordedAt(Instant.EPOCH)
                .setSourceDocument(PLANNED)
                .build())
        .setCropId(PLANNED)
        .setFieldId(field.fieldId())
        .setEnterpriseId(field.enterpriseId())
        .setHybridId(seedId)
        .setRole(role)
        .setSeedComponentId(seedId)
        .setPollenComponentId(pollenId)
        .setCropYear(year)
        .setCategory(category)
        .setRulebookId(rulebook.id())
        .setOutline(
            outline.corners().stream()
                .map(corner -> new GeoPoint(corner.lon(), corner.lat()))
                .toList())
        .build();
  }

  private static final String PLANNED = "planned";
}
