package org.kornspur.processors.judging;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Plot;

/** The place of a crop or pollen source, from its latest declaration. */
final class Plots {

  private Plots() {}

  static Optional<Plot> of(Dossier dossier) {
    return switch (dossier.subject().kind()) {
      case CROP -> dossier.crop().map(crop -> ofCrop(dossier, crop));
      case SOURCE -> dossier.latest(PollenSourceSeen.class).map(seen -> ofSource(dossier, seen));
      case LOT, HYBRID, ENTERPRISE -> Optional.empty();
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
