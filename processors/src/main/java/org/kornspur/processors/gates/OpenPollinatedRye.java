package org.kornspur.processors.gates;

import java.util.EnumSet;
import java.util.Set;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;

/**
 * Open-pollinated rye, which is mixed into hybrid seed to secure pollination, or sold as it is:
 * certified seed of a variety of its own, and no component of the hybrid. Only what the breeder's
 * scheme does not know, however it is spelt, and what nobody sowed or mixed as a component, is
 * taken for it; any other certified component is a wrong declaration.
 */
final class OpenPollinatedRye {
  private static final Set<FactType> USES_OF_COMPONENTS =
      EnumSet.of(FactType.SOWING, FactType.BLEND);

  private OpenPollinatedRye() {}

  static boolean is(Dossier dossier, Material material) {
    return canBe(material)
        && dossier.edgesOut().stream().noneMatch(edge -> USES_OF_COMPONENTS.contains(edge.by()))
        && dossier
            .scheme()
            .filter(
                scheme ->
                    scheme.components().keySet().stream()
                        .noneMatch(material.seedId()::equalsIgnoreCase))
            .isPresent();
  }

  /** A part of such a lot is told no scheme, and what the lot is wrongly declared it inherits. */
  static boolean isPart(Dossier dossier, Material material) {
    return canBe(material) && dossier.declaredLot().isEmpty() && dossier.scheme().isEmpty();
  }

  /** As far as that can be told of a lot whose scheme is not at hand; it owes the rest itself. */
  static boolean canBe(Material material) {
    return material.kind() == Material.Kind.COMPONENT && material.category() == Category.CERTIFIED;
  }
}
