package org.kornspur.processors.ground;

import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.ingest.intake.Problem;

/**
 * Whether the outline of a fact can be measured and put into cells. Asked before a fact is
 * accepted, so that the join of crops and sources only ever meets outlines that it can place.
 */
public final class PlaceableFacts {

  private PlaceableFacts() {}

  /** What is wrong with the outline of a fact; empty for a sound one and for facts without. */
  public static List<Problem> problemsOf(SpecificRecord fact) {
    if (fact instanceof FieldCropDeclared crop) {
      return problemsOf(crop.getOutline(), crop.getCropYear());
    }
    if (fact instanceof PollenSourceSeen source) {
      return problemsOf(source.getOutline(), source.getCropYear());
    }
    return List.of();
  }

  private static List<Problem> problemsOf(List<GeoPoint> corners, int cropYear) {
    try {
      IsolationCells.cellsOf(Outline.of(corners), cropYear);
      return List.of();
    } catch (InvalidOutline invalid) {
      return List.of(
          new Problem(
              "outline",
              Counted.of(corners.size(), "corner(s)"),
              "an outline that can be measured",
              invalid.getMessage()));
    }
  }
}
