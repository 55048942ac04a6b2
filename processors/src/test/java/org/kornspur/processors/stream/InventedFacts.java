package org.kornspur.processors.stream;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Category;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Correction;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.Withdrawal;

/** Facts of an invented production, as short as the stream's tests need them. */
final class InventedFacts {
  private static final Instant START = Instant.parse("2024-01-01T00:00:00Z");

  /** Latitude in which the invented fields lie. */
  static final double LATITUDE = 53.0;

  /** Metres in a degree of latitude, near enough to place fields. */
  private static final double METRES_A_DEGREE = 111_300;

  private InventedFacts() {}

  static FactHeader head(String factId, int day) {
    return new FactHeader(
        factId,
        "person-1",
        START.plusSeconds(86_400L * day),
        START.plusSeconds(86_400L * day),
        "sheet " + factId,
        null,
        null);
  }

  static FactHeader correcting(String factId, int day, String supersedes) {
    return new FactHeader(
        factId,
        "person-1",
        START.plusSeconds(86_400L * day),
        START.plusSeconds(86_400L * day + 60),
        "sheet " + factId,
        new Correction(supersedes, "typing error"),
        null);
  }

  static LotDeclared lot(String factId, String lotId, double massKg) {
    return new LotDeclared(
        head(factId, 0), lotId, "HYB-1", "A-1", Category.BASIC, "breeder-1", "EU", 2024, massKg);
  }

  static Sowing sowing(String factId, int day, String cropId, String... lotIds) {
    return new Sowing(head(factId, day), cropId, masses(lotIds), 10.0);
  }

  static Harvest harvest(FactHeader head, String cropId, String lotId, double massKg) {
    return new Harvest(head, cropId, lotId, massKg, null);
  }

  static Conditioning conditioning(String factId, int day, String in, String out) {
    return new Conditioning(head(factId, day), masses(in), masses(out), 0.0, null, null);
  }

  static Blend blend(String factId, int day, String into, String female, String pollinator) {
    return new Blend(head(factId, day), into, "HYB-1", masses(female), masses(pollinator), 5.0);
  }

  static PostControlResult postControl(FactHeader head, String lotId, boolean identity) {
    return new PostControlResult(
        head,
        lotId,
        PostControlMethod.PLOT,
        "plot-1",
        1000,
        identity,
        0,
        null,
        null,
        null,
        null,
        null,
        null);
  }

  static Withdrawal withdrawal(String factId, int day, String of) {
    return new Withdrawal(head(factId, day), of, "entered for the wrong lot");
  }

  /** A square field of 200 m whose southern edge lies {@code northM} metres north of the first. */
  static FieldCropDeclared crop(String factId, String cropId, String pollenId, double northM) {
    return crop(head(factId, 1), cropId, pollenId, northM);
  }

  static FieldCropDeclared crop(FactHeader head, String cropId, String pollenId, double northM) {
    return new FieldCropDeclared(
        head,
        cropId,
        "field-" + cropId,
        "grower-1",
        "HYB-1",
        CropRole.STERILE_FEMALE,
        "A-1",
        pollenId,
        2024,
        Category.BASIC,
        "EU",
        square(northM),
        null,
        null,
        null,
        3,
        null);
  }

  static PollenSourceSeen source(String factId, String sourceId, double northM) {
    return source(head(factId, 160), sourceId, northM);
  }

  static PollenSourceSeen source(FactHeader head, String sourceId, double northM) {
    return new PollenSourceSeen(
        head,
        sourceId,
        PollenSourceKind.RYE_CROP,
        2024,
        square(northM),
        java.time.LocalDate.of(2024, 5, 20),
        null);
  }

  private static List<GeoPoint> square(double northM) {
    double south = LATITUDE + northM / METRES_A_DEGREE;
    double north = south + 200 / METRES_A_DEGREE;
    return List.of(
        new GeoPoint(13.0, south),
        new GeoPoint(13.003, south),
        new GeoPoint(13.003, north),
        new GeoPoint(13.0, north));
  }

  private static List<LotMass> masses(String... lotIds) {
    return Arrays.stream(lotIds).map(id -> new LotMass(id, 100.0)).toList();
  }
}
