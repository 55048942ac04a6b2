package org.kornspur.processors.gates;

import org.kornspur.contract.Admixture;
import org.kornspur.contract.Category;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;

/**
 * Open-pollinated rye that is mixed into hybrid seed to secure pollination: certified seed of a
 * variety of its own, and no component of the hybrid. Only a lot that went into such an admixture
 * and that the breeder's scheme does not know is taken for it; any other certified component is a
 * wrong declaration.
 */
final class OpenPollinatedRye {

  private OpenPollinatedRye() {}

  static boolean is(Dossier dossier, Material material) {
    return canBe(material)
        && dossier.facts(Admixture.class).stream()
            .flatMap(admixture -> admixture.getOpenPollinatedLots().stream())
            .anyMatch(part -> part.getLotId().equals(dossier.subject().id()))
        && dossier
            .scheme()
            .filter(scheme -> !scheme.components().containsKey(material.seedId()))
            .isPresent();
  }

  /** As far as that can be told of a lot whose scheme is not at hand; it owes the rest itself. */
  static boolean canBe(Material material) {
    return material.kind() == Material.Kind.COMPONENT && material.category() == Category.CERTIFIED;
  }
}
