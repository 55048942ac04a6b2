package org.kornspur.processors.advice;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.FloweringWindow;

/**
 * When one component of a crop flowered, from what was seen of it. BBCH scale of cereals: flowering
 * begins at 61, is full at 65 and ends at 69. Its first day is known where somebody saw it begin
 * (61 to 63), its last where somebody saw it end (67 to 69); a look in between tells neither.
 *
 * @param full first day on which it was seen in full flower, 64 to 66
 * @param factIds what was seen, by day
 */
public record PartFlowering(
    FloweringPart part, FloweringWindow window, Optional<LocalDate> full, List<String> factIds) {
  private static final int FIRST_STAGE = 61;
  private static final int LAST_STAGE_OF_BEGIN = 63;
  private static final int FIRST_STAGE_OF_END = 67;
  private static final int LAST_STAGE = 69;

  /** One look at the component. */
  private record Look(LocalDate day, int stage, String factId) {
    boolean isInFlower() {
      return stage >= FIRST_STAGE && stage <= LAST_STAGE;
    }
  }

  static PartFlowering of(Dossier crop, FloweringPart part) {
    List<Look> inFlower =
        looks(crop, part).stream()
            .filter(Look::isInFlower)
            .sorted(Comparator.comparing(Look::day).thenComparing(Look::factId))
            .toList();
    Optional<LocalDate> from =
        inFlower.stream()
            .findFirst()
            .filter(look -> look.stage() <= LAST_STAGE_OF_BEGIN)
            .map(Look::day);
    Optional<LocalDate> to =
        inFlower.stream()
            .reduce((earlier, later) -> later)
            .filter(look -> look.stage() >= FIRST_STAGE_OF_END)
            .map(Look::day);
    Optional<LocalDate> full =
        inFlower.stream()
            .filter(look -> look.stage() > LAST_STAGE_OF_BEGIN)
            .filter(look -> look.stage() < FIRST_STAGE_OF_END)
            .findFirst()
            .map(Look::day);
    return new PartFlowering(
        part, FloweringWindow.known(from, to), full, inFlower.stream().map(Look::factId).toList());
  }

  /** Inspectors note the stage of the part that they look at. */
  private static List<Look> looks(Dossier crop, FloweringPart part) {
    List<Look> looks = new ArrayList<>();
    for (FloweringSeen seen : crop.facts(FloweringSeen.class)) {
      if (seen.getPart() == part) {
        looks.add(
            new Look(FactType.dayOf(seen), seen.getBbchStage(), seen.getHeader().getFactId()));
      }
    }
    for (FieldInspection visit : crop.facts(FieldInspection.class)) {
      if (visit.getPart() == inspected(part)) {
        looks.add(
            new Look(FactType.dayOf(visit), visit.getBbchStage(), visit.getHeader().getFactId()));
      }
    }
    return looks;
  }

  private static InspectedPart inspected(FloweringPart part) {
    return switch (part) {
      case FEMALE -> InspectedPart.FEMALE;
      case POLLEN_PARENT -> InspectedPart.POLLEN_PARENT;
    };
  }
}
