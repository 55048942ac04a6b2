package org.kornspur.processors.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.kornspur.processors.ground.Fields.at;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.processors.ground.IsolationIndex.Entry;
import org.kornspur.processors.ground.IsolationIndex.Found;
import org.kornspur.processors.ground.IsolationIndex.Near;

class IsolationIndexTest {
  /** Invented fields strewn around a place, of both years. */
  private static List<Entry> strewn(GeoPosition place, int count, double radiusM) {
    Random random = new Random(4711);
    List<Entry> entries = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      GeoPosition centre =
          Fields.from(place, 360 * random.nextDouble(), radiusM * Math.sqrt(random.nextDouble()));
      List<Double> radii = random.doubles(5, 60, 500).boxed().toList();
      entries.add(
          new Entry("crop:F%05d".formatted(i), 2025 + i % 2, Fields.star(centre, i, radii)));
    }
    return entries;
  }

  private static List<String> byBruteForce(
      List<Entry> entries, Outline outline, double reachM, int cropYear) {
    return entries.stream()
        .filter(entry -> entry.cropYear() == cropYear)
        .filter(entry -> OutlineDistance.between(outline, entry.outline()).distanceM() <= reachM)
        .map(Entry::id)
        .sorted()
        .toList();
  }

  @ParameterizedTest
  @CsvSource({"0, 0", "52.2, 10.5", "65, 180", "65, -179.9", "-34.5, -180", "84.5, 179.8"})
  void shouldFindWhatBruteForceFindsAndLookAtFew(double lat, double lon) {
    List<Entry> entries = strewn(at(lon, lat), 1_500, 40_000);
    IsolationIndex index = IsolationIndex.of(entries);
    int found = 0;
    for (int i = 0; i < 12; i++) {
      Outline source =
          Fields.star(
              Fields.from(at(lon, lat), 30.0 * i, 3_000.0 * i), 5, List.of(90.0, 70.0, 80.0));
      Found near = index.near(source, 1_000, 2026);
      assertThat(near.near().stream().map(it -> it.entry().id()).sorted().toList())
          .isEqualTo(byBruteForce(entries, source, 1_000, 2026));
      assertThat(near.measured()).isLessThanOrEqualTo(20);
      found += near.near().size();
    }
    assertThat(found).isGreaterThan(5);
  }

  @Test
  void shouldGiveTheNearestFirstAndMeasureFromTheOutlineAskedFor() {
    GeoPosition place = at(180, 65);
    Outline wanted = Fields.rectangle(place, -100, -100, 0, 0);
    Entry far = new Entry("source:A", 2026, Fields.rectangle(place, 900, -100, 1_000, 0));
    Entry near = new Entry("source:B", 2026, Fields.rectangle(place, 300, -100, 400, 0));
    Entry touching = new Entry("source:C", 2026, Fields.rectangle(place, -100, 0, 0, 100));
    List<Near> found =
        IsolationIndex.of(List.of(far, near, touching)).near(wanted, 1_000, 2026).near();
    assertThat(found).extracting(Near::entry).containsExactly(touching, near, far);
    assertThat(found.get(1).separation().distanceM()).isCloseTo(300, within(0.01));
    assertThat(GeodesicOracle.distanceM(found.get(1).separation().onFirst(), place))
        .isLessThan(101);
  }

  @Test
  void shouldKeepWhatLiesAtTheReachItself() {
    Outline wanted = plot(0);
    Entry other = new Entry("crop:A", 2026, plot(0.02));
    double distanceM = OutlineDistance.between(wanted, other.outline()).distanceM();
    IsolationIndex index = IsolationIndex.of(List.of(other));
    assertThat(index.near(wanted, distanceM, 2026).near()).hasSize(1);
    assertThat(index.near(wanted, Math.nextDown(distanceM), 2026).near()).isEmpty();
  }

  private static Outline plot(double eastDeg) {
    return Fields.star(at(10 + eastDeg, 52), 0, List.of(50.0, 60.0, 50.0, 60.0));
  }

  @Test
  void shouldFindNothingInAYearWithoutFields() {
    IsolationIndex index = IsolationIndex.of(List.of(new Entry("crop:A", 2026, plot(0))));
    assertThat(index.near(plot(0), 1_000, 2027)).isEqualTo(new Found(List.of(), 0));
  }

  @Test
  void shouldRefusePolarOutlinesAndAReachOutOfItsLimits() {
    Outline polar = Fields.star(at(10, 88), 0, List.of(50.0, 60.0, 50.0));
    assertThatThrownBy(() -> IsolationIndex.of(List.of(new Entry("crop:A", 2026, polar))))
        .isInstanceOf(InvalidOutline.class);
    IsolationIndex index = IsolationIndex.of(List.of());
    assertThatThrownBy(() -> index.near(polar, 1_000, 2026)).isInstanceOf(InvalidOutline.class);
    assertThatThrownBy(() -> index.near(plot(0), -1, 2026))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
