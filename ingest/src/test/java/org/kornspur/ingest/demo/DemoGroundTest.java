package org.kornspur.ingest.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.Sowing;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/**
 * Where the fields lie, measured by the JTS library on a plane that touches WGS84 at the middle of
 * the grid: over thirty kilometres that is true to one part in a thousand.
 */
class DemoGroundTest {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();
  private static final double MIDDLE_LAT = 52.72;

  /** Metres in a degree at latitude 52.72 from the radii of WGS84: 6378137 m, e² 0.00669438. */
  private static final double METRES_NORTH =
      Math.toRadians(6378137 * (1 - 0.00669438) / Math.pow(curvature(), 1.5));

  private static final double METRES_EAST =
      Math.toRadians(6378137 / Math.sqrt(curvature()) * Math.cos(Math.toRadians(MIDDLE_LAT)));

  private final List<SpecificRecord> facts = DemoEvents.invented().facts();

  /**
   * Widest distance that any rulebook asks for: 1,000 m, Seed Ordinance (SaatV) Annex 2 1.3.1.3b.
   */
  @Test
  void ryeStandsAThousandMetresApartSaveInThreeStories() {
    List<Rye> stands = stands();
    TreeSet<String> near = new TreeSet<>();
    for (int i = 0; i < stands.size(); i++) {
      for (Rye other : stands.subList(i + 1, stands.size())) {
        Rye one = stands.get(i);
        if (one.year() == other.year() && one.land().distance(other.land()) < 1_000) {
          near.add(one.id() + " " + other.id());
        }
      }
    }

    assertThat(near).containsExactly("C25-S01 NB-S01", "C26-S12 NB-S12", "C26-S13 NB-S13");
  }

  /** Certified seed wants 500 m: Seed Ordinance (SaatV) Annex 2 1.3.1.3b. */
  @Test
  void theNeighbourStandsInsideTheIsolationDistanceAndOutsideTheCrop() {
    assertThat(distance("C25-S01", "NB-S01")).isBetween(100.0, 450.0);
    assertThat(distance("C26-S12", "NB-S12")).isBetween(100.0, 450.0);
    assertThat(distance("C26-S13", "NB-S13")).isBetween(20.0, 450.0);
  }

  @Test
  void fieldsAreWholePiecesOfLandOfTheAreaThatWasSown() {
    List<FieldCropDeclared> crops = all(FieldCropDeclared.class);

    assertThat(crops)
        .allSatisfy(
            crop -> {
              Polygon land = land(crop.getOutline());
              assertThat(land.isValid()).isTrue();
              assertThat(crop.getOutline()).hasSizeBetween(4, 8);
              assertThat(land.getArea() / 10_000).isBetween(1.9, 25.1);
              assertThat(land.getArea() / 10_000).isCloseTo(sownHa(crop.getCropId()), within(0.05));
              assertThat(crop.getOutline())
                  .allSatisfy(corner -> assertThat(corner.getLat()).isBetween(52.0, 54.0));
            });
  }

  private record Rye(String id, int year, Polygon land) {}

  private List<Rye> stands() {
    List<Rye> stands = new ArrayList<>();
    for (FieldCropDeclared crop : all(FieldCropDeclared.class)) {
      stands.add(new Rye(crop.getCropId(), crop.getCropYear(), land(crop.getOutline())));
    }
    for (PollenSourceSeen source : all(PollenSourceSeen.class)) {
      stands.add(new Rye(source.getSourceId(), source.getCropYear(), land(source.getOutline())));
    }
    return stands;
  }

  private double distance(String one, String other) {
    return land(one).distance(land(other));
  }

  private Polygon land(String id) {
    return stands().stream().filter(rye -> rye.id().equals(id)).findFirst().orElseThrow().land();
  }

  private double sownHa(String cropId) {
    return all(Sowing.class).stream()
        .filter(sowing -> sowing.getCropId().equals(cropId))
        .findFirst()
        .orElseThrow()
        .getAreaHa();
  }

  private <T extends SpecificRecord> List<T> all(Class<T> type) {
    return facts.stream().filter(type::isInstance).map(type::cast).toList();
  }

  private static Polygon land(List<GeoPoint> outline) {
    return GEOMETRY.createPolygon(
        Stream.concat(outline.stream(), Stream.of(outline.get(0)))
            .map(
                corner ->
                    new Coordinate(corner.getLon() * METRES_EAST, corner.getLat() * METRES_NORTH))
            .toArray(Coordinate[]::new));
  }

  private static double curvature() {
    double sine = Math.sin(Math.toRadians(MIDDLE_LAT));
    return 1 - 0.00669438 * sine * sine;
  }
}
