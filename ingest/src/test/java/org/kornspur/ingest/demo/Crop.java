package org.kornspur.ingest.demo;

import java.time.LocalDate;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;

/**
 * A field crop of the demo.
 *
 * @param cropId id, as in {@code C24-03}
 * @param seedComponent what is harvested
 * @param pollenComponent the pollen wanted
 * @param year year of harvest
 */
record Crop(
    String cropId,
    DemoField field,
    DemoHybrid hybrid,
    CropRole role,
    String seedComponent,
    String pollenComponent,
    int year,
    Category category,
    String growerId) {

  static Crop fertile(
      String cropId, DemoField field, DemoHybrid hybrid, CropRole role, String line, int year) {
    return new Crop(cropId, field, hybrid, role, line, line, year, Category.BASIC, grower(cropId));
  }

  static Crop sterileLine(String cropId, DemoField field, DemoHybrid hybrid, int year) {
    return new Crop(
        cropId,
        field,
        hybrid,
        CropRole.STERILE_FEMALE,
        hybrid.sterileLine(),
        hybrid.maintainer(),
        year,
        Category.BASIC,
        grower(cropId));
  }

  static Crop singleCross(String cropId, DemoField field, DemoHybrid hybrid, int year) {
    return new Crop(
        cropId,
        field,
        hybrid,
        CropRole.STERILE_FEMALE,
        hybrid.singleCross(),
        hybrid.fertileLine(),
        year,
        Category.BASIC,
        grower(cropId));
  }

  static Crop f1(String cropId, DemoField field, DemoHybrid hybrid, int year) {
    return new Crop(
        cropId,
        field,
        hybrid,
        CropRole.F1_MIXTURE,
        hybrid.id(),
        hybrid.pollinator(),
        year,
        Category.CERTIFIED,
        grower(cropId));
  }

  boolean hasSterileFemale() {
    return role == CropRole.STERILE_FEMALE || role == CropRole.F1_MIXTURE;
  }

  /** The id without its leading letter: what lots from this crop are called after. */
  String stem() {
    return cropId.substring(1);
  }

  /** A day of the year of harvest. */
  LocalDate on(int month, int day) {
    return LocalDate.of(year, month, day);
  }

  private static String grower(String cropId) {
    return Draw.of("grower", cropId).oneOf(Enterprises.MULTIPLIERS);
  }
}
