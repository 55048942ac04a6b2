package org.kornspur.processors.gates;

import java.util.Optional;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.PostControlResult;
import org.kornspur.processors.dossier.Material;

/**
 * What the plants of a post-control are in the scheme of their hybrid: it decides whether plants
 * that shed are counted.
 */
record PlantsGrown(SeedLot lot, PostControlResult result) {
  /** Where the scheme is not known, the count of plants that shed tells it. */
  boolean areFemale() {
    return kindInScheme()
        .map(
            known ->
                known == ComponentKind.STERILE_LINE || known == ComponentKind.STERILE_SINGLE_CROSS)
        .orElseGet(() -> result.getSheddingPlants() != null || areOfFemaleSeed());
  }

  /** Whether neither the scheme nor where the seed comes from says what it is. */
  boolean areOfUnknownKind() {
    return lot.material().kind() == Material.Kind.COMPONENT
        && kindInScheme().isEmpty()
        && lot.dossier().cropRole().isEmpty();
  }

  private Optional<ComponentKind> kindInScheme() {
    return lot.dossier().scheme().map(scheme -> scheme.components().get(lot.material().seedId()));
  }

  /**
   * A lot that no fact names beside its hybrid is not told the scheme; its crop says what it is, or
   * the lot that it was divided from.
   */
  private boolean areOfFemaleSeed() {
    return lot.dossier().cropRole().equals(Optional.of(CropRole.STERILE_FEMALE));
  }
}
