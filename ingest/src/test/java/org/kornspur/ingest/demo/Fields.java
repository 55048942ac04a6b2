package org.kornspur.ingest.demo;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.kornspur.contract.GeoPoint;

/**
 * The invented fields: a grid of one hundred, three kilometres apart, small and large by turns, so
 * that any two lie well beyond every isolation distance.
 */
final class Fields {
  private static final GeoPoint ORIGIN = new GeoPoint(14.6, 52.6);
  private static final int SIDE = 10;
  private static final double SPACING_M = 3_000;

  private final List<DemoField> small =
      IntStream.range(0, SIDE * SIDE).filter(i -> !isLarge(i)).mapToObj(Fields::field).toList();
  private final List<DemoField> large =
      IntStream.range(0, SIDE * SIDE).filter(Fields::isLarge).mapToObj(Fields::field).toList();
  private final Map<String, Set<Integer>> yearsOfRye = new HashMap<>();

  /** A field of 2 to 5 ha, for lines, without rye in the year before and after. */
  DemoField small(int cropYear) {
    return free(small, cropYear);
  }

  /**
   * A field of 2 to 5 ha without rye in the two years before, as the Seed Ordinance asks for basic
   * seed of the female component. The field whose turn it would be lies fallow.
   */
  DemoField smallAndRested(int cropYear) {
    small(cropYear);
    DemoField field =
        small.stream()
            .filter(f -> yearsOf(f).stream().allMatch(year -> Math.abs(year - cropYear) > 2))
            .reduce((earlier, later) -> later)
            .orElseThrow(() -> new IllegalStateException("No field is rested in " + cropYear));
    yearsOf(field).add(cropYear);
    return field;
  }

  /** A field of 5 to 25 ha, for hybrid seed, without rye in the year before and after. */
  DemoField large(int cropYear) {
    return free(large, cropYear);
  }

  private DemoField free(List<DemoField> fields, int cropYear) {
    DemoField field =
        fields.stream()
            .filter(f -> yearsOf(f).stream().allMatch(year -> Math.abs(year - cropYear) > 1))
            .findFirst()
            .orElseThrow(() -> new IllegalStateException("No field is free in " + cropYear));
    yearsOf(field).add(cropYear);
    return field;
  }

  private Set<Integer> yearsOf(DemoField field) {
    return yearsOfRye.computeIfAbsent(field.fieldId(), id -> new HashSet<>());
  }

  private static boolean isLarge(int index) {
    return (index / SIDE + index % SIDE) % 2 == 1;
  }

  private static DemoField field(int index) {
    String fieldId = "Field-%02d".formatted(index);
    Draw draw = Draw.of("place", fieldId);
    int row = index / SIDE;
    int column = index % SIDE;
    GeoPoint centre =
        DemoField.offset(
            ORIGIN,
            column * SPACING_M + draw.between(-200, 200),
            row * SPACING_M + draw.between(-200, 200));
    double share = draw.share();
    double areaHa = isLarge(index) ? 5 + 20 * share * share : 2 + 3 * share;
    return DemoField.around(fieldId, centre, Draw.rounded(areaHa, 2));
  }
}
