package org.kornspur.processors.plan.field;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.standards.Rulebooks;

/** Square fields of an invented country; a degree of latitude is taken for 111.2 km there. */
public final class InventedGround {
  private static final double LAT = 52;
  private static final double LON = 13;
  private static final double LAT_DEG_M = 111_270;
  private static final double LON_DEG_M = 68_677;

  private InventedGround() {}

  /** A field with its south-west corner so many metres east and north of a corner. */
  public static KnownField field(String grower, String id, double eastM, double northM, double m) {
    return KnownField.of(new FieldName(grower, id), square(eastM, northM, m));
  }

  static Outline square(double eastM, double northM, double m) {
    return Outline.ofPositions(
        List.of(
            at(eastM, northM),
            at(eastM + m, northM),
            at(eastM + m, northM + m),
            at(eastM, northM + m)));
  }

  static GeoPosition at(double eastM, double northM) {
    return new GeoPosition(LON + eastM / LON_DEG_M, LAT + northM / LAT_DEG_M);
  }

  /** The crop of a hybrid's mixture, for certified seed. */
  public static PlannedCrop mixture(int hybrid, int year, String book) {
    return crop("H-" + hybrid, "C-" + hybrid, CropRole.F1_MIXTURE, year, book);
  }

  /** A single cross, for basic seed. */
  public static PlannedCrop singleCross(int hybrid, int year, String book) {
    return crop("SC-" + hybrid, "B-" + hybrid, CropRole.STERILE_FEMALE, year, book);
  }

  /** A pollinator, for basic seed. */
  public static PlannedCrop pollinator(int hybrid, int year, String book) {
    return crop("C-" + hybrid, "C-" + hybrid, CropRole.POLLINATOR, year, book);
  }

  private static PlannedCrop crop(
      String seed, String pollen, CropRole role, int year, String book) {
    return new PlannedCrop(
        seed,
        pollen,
        role,
        role == CropRole.F1_MIXTURE ? Category.CERTIFIED : Category.BASIC,
        year,
        Rulebooks.bundled().find(book).orElseThrow());
  }

  /** Rye that somebody saw. */
  public static RyeStand seen(String id, int year, double eastM, double northM, double m) {
    return RyeStand.known(
        new Plot(
            Subject.source(id),
            year,
            square(eastM, northM, m).corners(),
            Optional.empty(),
            Optional.of(PollenSourceKind.RYE_CROP),
            Optional.empty(),
            Optional.empty(),
            "seen-" + id,
            Optional.empty(),
            Optional.empty(),
            Optional.empty()),
        Optional.empty());
  }
}
