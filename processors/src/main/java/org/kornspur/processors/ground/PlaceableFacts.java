package org.kornspur.processors.ground;

import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.OutlineProblem;
import org.kornspur.ingest.statement.Value.Amount;

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
          Problem.of(
              "outline",
              invalid.place().map(PlaceableFacts::given).orElse(new Given.Corners(corners.size())),
              reason(invalid.fault())));
    }
  }

  private static Given given(GeoPosition place) {
    return new Given.CornerAt(degrees(place.lon()), degrees(place.lat()));
  }

  private static OutlineProblem reason(InvalidOutline.Fault fault) {
    return switch (fault) {
      case TOO_FEW_CORNERS -> new OutlineProblem.TooFewCorners(OutlineRules.LEAST_CORNERS);
      case NOT_A_NUMBER, OUT_OF_RANGE -> new OutlineProblem.NoPlace();
      case REPEATED_CORNER -> new OutlineProblem.RepeatedCorner();
      case SPIKE -> new OutlineProblem.Spike();
      // the outline of a fact has no holes
      case CROSSING, HOLE_MISPLACED -> new OutlineProblem.SidesMeet();
      case TOO_LARGE -> new OutlineProblem.TooLarge(new Amount(Outline.MAX_EXTENT_M / 1000, "km"));
      case POLAR -> new OutlineProblem.Polar(degrees(IsolationCells.MAX_LATITUDE_DEG));
    };
  }

  /** Seven places of a degree are a centimetre on the ground. */
  private static Amount degrees(double degrees) {
    return new Amount(Math.rint(degrees * 1e7) / 1e7, "deg");
  }
}
