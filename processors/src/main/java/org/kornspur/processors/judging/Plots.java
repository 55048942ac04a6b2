package org.kornspur.processors.judging;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.Plot;

/** The place of a crop or pollen source. */
final class Plots {

  private Plots() {}

  /**
   * From the latest declaration; empty for what is not declared or has no place.
   *
   * @throws InvalidOutline where it cannot be placed
   */
  static Optional<Located> of(Dossier dossier) {
    return declared(dossier).stream().reduce((earlier, later) -> later).map(Located::of);
  }

  /** From the latest declaration that can be placed; empty where none can. */
  static Optional<Located> lastThatCanBePlaced(Dossier dossier) {
    return declared(dossier).stream()
        .flatMap(plot -> ifPlaceable(plot).stream())
        .reduce((earlier, later) -> later);
  }

  private static Optional<Located> ifPlaceable(Plot plot) {
    try {
      return Optional.of(Located.of(plot));
    } catch (InvalidOutline nowhere) {
      return Optional.empty();
    }
  }

  private static List<Plot> declared(Dossier dossier) {
    return switch (dossier.subject().kind()) {
      case CROP ->
          dossier.facts(FieldCropDeclared.class).stream()
              .map(crop -> ofCrop(dossier, crop))
              .toList();
      case SOURCE ->
          dossier.facts(PollenSourceSeen.class).stream()
              .map(seen -> ofSource(dossier, seen))
              .toList();
      case LOT, HYBRID, ENTERPRISE -> List.of();
    };
  }

  private static Plot ofCrop(Dossier dossier, FieldCropDeclared crop) {
    return new Plot(
        dossier.subject(),
        crop.getCropYear(),
        positions(crop.getOutline()),
        Optional.of(crop.getPollenComponentId()),
        Optional.empty(),
        Optional.ofNullable(crop.getFloweringFrom()),
        Optional.ofNullable(crop.getFloweringTo()),
        crop.getHeader().getFactId());
  }

  private static Plot ofSource(Dossier dossier, PollenSourceSeen seen) {
    return new Plot(
        dossier.subject(),
        seen.getCropYear(),
        positions(seen.getOutline()),
        Optional.empty(),
        Optional.of(seen.getKind()),
        Optional.empty(),
        Optional.ofNullable(seen.getEndedOn()),
        seen.getHeader().getFactId());
  }

  private static List<GeoPosition> positions(List<GeoPoint> outline) {
    return outline.stream().map(GeoPosition::of).toList();
  }
}
