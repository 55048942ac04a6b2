package org.kornspur.processors.gates;

import java.util.Objects;
import java.util.stream.Stream;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.processors.standards.Quantity;

/**
 * What a sample counts of each kind that a rulebook limits.
 *
 * <p>Seeds of other species are cereals and other plants; Raphanus and Agrostemma, wild oats and
 * Lolium temulentum are within the other plants: heading of Seed Ordinance (SaatV), Annex 3 no.
 * 1.1. Where more of these were counted than other plants in all, they are taken for all.
 */
final class SeedCounts {

  private SeedCounts() {}

  /** The count; null where it was not made. */
  static Integer of(Quantity what, OtherSeedDetermination sample) {
    return switch (what) {
      case OTHER_SEEDS_TOTAL -> total(sample.getOtherCereals(), otherPlants(sample));
      case OTHER_CEREAL_SEEDS -> sample.getOtherCereals();
      case OTHER_PLANT_SEEDS -> otherPlants(sample);
      case RAPHANUS_AND_AGROSTEMMA_SEEDS -> sample.getRaphanusAndAgrostemma();
      case WILD_OAT_SEEDS -> sample.getWildOats();
      case LOLIUM_TEMULENTUM_SEEDS -> sample.getLoliumTemulentum();
      case ERGOT_BODIES -> sample.getErgotBodies();
      default -> throw new IllegalArgumentException("No sample counts " + what);
    };
  }

  private static Integer total(Integer cereals, Integer plants) {
    return cereals == null || plants == null ? null : Integer.valueOf(cereals + plants);
  }

  private static Integer otherPlants(OtherSeedDetermination sample) {
    if (sample.getOtherPlants() == null) {
      return null;
    }
    int named =
        Stream.of(
                sample.getRaphanusAndAgrostemma(),
                sample.getWildOats(),
                sample.getLoliumTemulentum())
            .filter(Objects::nonNull)
            .mapToInt(Integer::intValue)
            .sum();
    return Math.max(sample.getOtherPlants(), named);
  }
}
