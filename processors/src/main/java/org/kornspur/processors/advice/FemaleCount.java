package org.kornspur.processors.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.gates.SheddingShare;

/**
 * Shedding plants among females examined, over all visits and sterility checks of a crop. Ears that
 * were bagged speak only where no plants were examined: an ear that set seed stands for a plant
 * that sheds.
 *
 * @param shedding shedding plants
 * @param examined females examined in receptive flower
 * @param factIds facts that were counted
 * @param leftOut facts that count more shedding plants than plants
 */
record FemaleCount(int shedding, int examined, List<String> factIds, List<String> leftOut) {
  /** So that a whole number of plants does not become one more. */
  private static final double ROUNDING = 1e-9;

  static Optional<FemaleCount> of(Dossier crop) {
    Tally plants = new Tally();
    for (FieldInspection visit : crop.facts(FieldInspection.class)) {
      if (visit.getPart() == InspectedPart.FEMALE) {
        plants.add(
            visit.getSheddingPlants(),
            visit.getPlantsInReceptiveFlower(),
            visit.getHeader().getFactId());
      }
    }
    Tally ears = new Tally();
    for (SterilityCheck check : crop.facts(SterilityCheck.class)) {
      String factId = check.getHeader().getFactId();
      plants.add(check.getPlantsShedding(), check.getPlantsExamined(), factId);
      ears.add(check.getBaggedEarsWithSeed(), check.getBaggedEars(), factId);
    }
    return plants
        .count()
        .map(count -> count.overDays(SheddingShare.overDaysOfFlowering(crop)))
        .or(ears::count);
  }

  /**
   * Plants that shed before they were removed count for their days: where these come to a larger
   * share, so many of the plants examined are taken as shedding.
   */
  private FemaleCount overDays(Optional<Double> share) {
    int overDays = (int) Math.ceil(share.orElse(0.0) * examined - ROUNDING);
    return new FemaleCount(Math.max(shedding, overDays), examined, factIds, leftOut);
  }

  private static final class Tally {
    private final List<String> factIds = new ArrayList<>();
    private final List<String> leftOut = new ArrayList<>();
    private int shedding;
    private int examined;

    void add(Integer found, Integer among, String factId) {
      if (found == null || among == null || among == 0) {
        return;
      }
      if (found > among) {
        leftOut.add(factId);
        return;
      }
      shedding += found;
      examined += among;
      factIds.add(factId);
    }

    Optional<FemaleCount> count() {
      return examined == 0
          ? Optional.empty()
          : Optional.of(
              new FemaleCount(shedding, examined, List.copyOf(factIds), List.copyOf(leftOut)));
    }
  }
}
