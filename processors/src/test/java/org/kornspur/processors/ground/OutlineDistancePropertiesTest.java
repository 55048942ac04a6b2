package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tag;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.statistics.Statistics;

@Tag("slow")
class OutlineDistancePropertiesTest {
  /** Three invented fields within some kilometres of one place. */
  record Three(Outline a, Outline b, Outline c) {}

  @Provide
  Arbitrary<Three> neighbours() {
    return places().flatMap(OutlineDistancePropertiesTest::threeNear);
  }

  static Arbitrary<GeoPosition> places() {
    Arbitrary<Double> lon =
        Arbitraries.oneOf(
            Arbitraries.doubles().between(-180, 180),
            Arbitraries.doubles().between(179.98, 180),
            Arbitraries.doubles().between(-180, -179.98));
    return Combinators.combine(lon, Arbitraries.doubles().between(-80, 80)).as(Fields::at);
  }

  private static Arbitrary<Three> threeNear(GeoPosition place) {
    Arbitrary<Outline> field =
        Combinators.combine(
                Arbitraries.doubles().between(0, 360),
                Arbitraries.doubles().between(0, 2_500),
                Arbitraries.doubles().between(0, 120),
                Arbitraries.doubles().between(40, 900).list().ofMinSize(3).ofMaxSize(8))
            .as(
                (azimuth, awayM, turn, radii) ->
                    Fields.star(Fields.from(place, azimuth, awayM), turn, radii));
    return Combinators.combine(field, field, field).as(Three::new);
  }

  @Property(tries = 300)
  void shouldNotDependOnWhichIsFirst(@ForAll("neighbours") Three fields) {
    OutlineDistance there = OutlineDistance.between(fields.a(), fields.b());
    OutlineDistance back = OutlineDistance.between(fields.b(), fields.a());
    assertThat(back.distanceM()).isCloseTo(there.distanceM(), within(1e-6));
  }

  @Property(tries = 200)
  void shouldAgreeWithBruteForceAndBeZeroOnlyWhereFieldsMeet(@ForAll("neighbours") Three fields) {
    double rims = GeodesicOracle.boundaryDistanceM(fields.a(), fields.b());
    boolean meet =
        rims < 0.001
            || fields.a().corners().stream().anyMatch(c -> GeodesicOracle.contains(fields.b(), c))
            || fields.b().corners().stream().anyMatch(c -> GeodesicOracle.contains(fields.a(), c));
    Statistics.label("meet")
        .collect(meet)
        .coverage(seen -> seen.check(true).percentage(share -> share > 5 && share < 95));
    double expectedM = meet ? 0 : rims;
    assertThat(OutlineDistance.between(fields.a(), fields.b()).distanceM())
        .isCloseTo(expectedM, within(0.002));
  }

  @Property(tries = 300)
  void shouldKeepItsDistanceWhenBothMoveAlongTheParallel(
      @ForAll("neighbours") Three fields,
      @ForAll @DoubleRange(min = -360, max = 360) double lonDeg) {
    double before = OutlineDistance.between(fields.a(), fields.b()).distanceM();
    double after =
        OutlineDistance.between(
                Fields.turned(fields.a(), lonDeg), Fields.turned(fields.b(), lonDeg))
            .distanceM();
    assertThat(after).isCloseTo(before, within(0.0011));
  }

  @Property(tries = 300)
  void shouldBeNoLongerThanTheWayOverAThirdField(@ForAll("neighbours") Three fields) {
    OutlineDistance ab = OutlineDistance.between(fields.a(), fields.b());
    OutlineDistance bc = OutlineDistance.between(fields.b(), fields.c());
    double across = GeodesicOracle.distanceM(ab.onSecond(), bc.onFirst());
    assertThat(OutlineDistance.between(fields.a(), fields.c()).distanceM())
        .isLessThanOrEqualTo(ab.distanceM() + across + bc.distanceM() + 0.003);
  }

  @Property(tries = 300)
  void shouldBeNoLongerThanFromAnyCornerToAnyCorner(@ForAll("neighbours") Three fields) {
    double distance = OutlineDistance.between(fields.a(), fields.b()).distanceM();
    for (GeoPosition a : fields.a().corners()) {
      for (GeoPosition b : fields.b().corners()) {
        assertThat(distance).isLessThanOrEqualTo(GeodesicOracle.distanceM(a, b) + 0.001);
      }
    }
  }
}
