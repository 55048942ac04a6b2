package org.kornspur.processors.judging;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.act.SignedSubmissions;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.IsolationCells;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.PlaceableFacts;
import org.kornspur.processors.ground.Plot;

/**
 * The place of a crop or pollen source, from what counts last, with what is not settled beside it:
 * corrections that wait for confirmation, and what growers say. None of these takes the place of
 * another report, so none can move pollen away from a crop.
 */
final class Plots {

  private Plots() {}

  /**
   * Where a crop or source lies; empty for what is not declared or has no place.
   *
   * @throws InvalidOutline where one of the reports cannot be placed
   */
  static Optional<Plot> of(Dossier dossier) {
    List<Plot> reports =
        switch (dossier.subject().kind()) {
          case CROP -> ofCrop(dossier);
          case SOURCE -> ofSource(dossier);
          case LOT, HYBRID, ENTERPRISE -> List.of();
        };
    for (Plot plot : reports) {
      IsolationCells.cellsOf(Outline.ofPositions(plot.outline()), plot.cropYear());
    }
    return Plot.of(reports);
  }

  /** Where it lies by those facts alone that can be placed; empty where none can. */
  static Optional<Plot> ofWhatCanBePlaced(Dossier dossier) {
    return of(dossier.of(entry -> PlaceableFacts.problemsOf(entry.fact()).isEmpty()));
  }

  private static List<Plot> ofCrop(Dossier dossier) {
    List<Plot> reports = new ArrayList<>();
    dossier.crop().ifPresent(crop -> reports.add(ofCrop(dossier, crop)));
    dossier.awaiting(FieldCropDeclared.class).forEach(crop -> reports.add(ofCrop(dossier, crop)));
    return reports;
  }

  /** A declared crop is confirmed by whoever inspected it, and by a declaration of another hand. */
  private static Optional<String> declaredBy(Dossier dossier, FieldCropDeclared crop) {
    boolean isConfirmed =
        !dossier.facts(FieldInspection.class).isEmpty()
            || dossier.facts(FieldCropDeclared.class).stream()
                .anyMatch(declared -> reporter(declared).isEmpty());
    return isConfirmed ? Optional.empty() : reporter(crop);
  }

  /**
   * What inspectors, quality or files say last of a source settles what growers said before; after
   * it each enterprise's last word stands beside it.
   */
  private static List<Plot> ofSource(Dossier dossier) {
    Optional<PollenSourceSeen> settled = Optional.empty();
    Map<String, PollenSourceSeen> growers = new LinkedHashMap<>();
    for (PollenSourceSeen seen : dossier.facts(PollenSourceSeen.class)) {
      Optional<String> grower = reporter(seen);
      if (grower.isPresent()) {
        growers.put(grower.get(), seen);
      } else {
        settled = Optional.of(seen);
        growers.clear();
      }
    }
    List<Plot> reports = new ArrayList<>();
    settled.ifPresent(seen -> reports.add(ofSource(dossier, seen)));
    dossier.awaiting(PollenSourceSeen.class).forEach(seen -> reports.add(ofSource(dossier, seen)));
    growers.values().forEach(seen -> reports.add(ofSource(dossier, seen)));
    return reports;
  }

  /** The grower's enterprise where a grower brought the fact. */
  private static Optional<String> reporter(SpecificRecord fact) {
    return SignedSubmissions.of(fact)
        .filter(submission -> submission.getRole() == SenderRole.MULTIPLIER)
        .map(Submission::getEnterpriseId);
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
        crop.getHeader().getFactId(),
        declaredBy(dossier, crop),
        Optional.empty(),
        Optional.empty());
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
        seen.getHeader().getFactId(),
        reporter(seen),
        Optional.empty(),
        Optional.empty());
  }

  private static List<GeoPosition> positions(List<GeoPoint> outline) {
    return outline.stream().map(GeoPosition::of).toList();
  }
}
