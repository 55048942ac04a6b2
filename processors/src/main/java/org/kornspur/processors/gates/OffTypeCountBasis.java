package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.OffTypesFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.statistics.Dispersion;
import org.kornspur.processors.statistics.ExactPoisson;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.MoreUnits;

/** What off-types are counted over: an area in square metres, or plants. */
enum OffTypeCountBasis {
  AREA(Quantity.OFF_TYPES_BY_AREA, Quantity.COUNTED_AREA, ", by area"),
  PLANTS(Quantity.OFF_TYPES_BY_PLANTS, Quantity.COUNTED_PLANTS, ", by plants");

  private static final double CONFIDENCE = 0.95;

  /** Plants for each square metre in the thinnest and in the densest crop of rye. */
  private static final double THINNEST = 50;

  private static final double DENSEST = 500;

  private final Quantity limited;
  private final Quantity least;
  private final String key;

  OffTypeCountBasis(Quantity limited, Quantity least, String key) {
    this.limited = limited;
    this.least = least;
    this.key = key;
  }

  Quantity limited() {
    return limited;
  }

  /** What the least sample stands under. */
  Quantity least() {
    return least;
  }

  /** End of the key of an aspect. */
  String key() {
    return key;
  }

  /** What counts of one part on this basis, which the book limits. */
  List<FieldInspection> counts(SeedCrop crop, InspectedPart part) {
    return counts(crop, crop.inspections(part));
  }

  /** Those that count on this basis, which the book limits. */
  List<FieldInspection> counts(SeedCrop crop, List<FieldInspection> some) {
    Limit limit = crop.limit(limited).orElseThrow();
    return crop.counting(
        some.stream().filter(this::reads).toList(),
        count -> !limit.holds(count.getOffTypePlants() / among(List.of(count))));
  }

  /** Whether a count tells over how much it was made on this basis. */
  boolean reads(FieldInspection count) {
    return switch (this) {
      case AREA -> count.getAreaM2() != null;
      case PLANTS -> count.getPlantsCounted() != null;
    };
  }

  /**
   * What a count that is on the other basis alone can have been made over at most; 0 on neither.
   */
  double amongAtMost(FieldInspection count) {
    return switch (this) {
      case AREA -> Optional.ofNullable(count.getPlantsCounted()).orElse(0) / THINNEST;
      case PLANTS -> Optional.ofNullable(count.getAreaM2()).orElse(0.0) * DENSEST;
    };
  }

  /** What such a count can have been made over at least; 0 on neither. */
  double amongAtLeast(FieldInspection count) {
    return switch (this) {
      case AREA -> Optional.ofNullable(count.getPlantsCounted()).orElse(0) / DENSEST;
      case PLANTS -> Optional.ofNullable(count.getAreaM2()).orElse(0.0) * THINNEST;
    };
  }

  Roguing.Count count(Visit visit) {
    return new Roguing.Count(visit, offTypes(visit.counts()), among(visit.counts()));
  }

  boolean isImpossible(FieldInspection count) {
    return this == PLANTS && count.getOffTypePlants() > count.getPlantsCounted();
  }

  Aspect aspect(InspectedPart part, Optional<Integer> visit) {
    return switch (this) {
      case AREA -> new Aspect.PartByArea(part, visit);
      case PLANTS -> new Aspect.PartByPlants(part, visit);
    };
  }

  Finding finding(InspectedPart part, Optional<Integer> visit, List<FieldInspection> counts) {
    int found = offTypes(counts);
    double among = among(counts);
    return switch (this) {
      case AREA -> new OffTypesFinding.ByArea(part, visit, found, Amount.squareMetres(among));
      case PLANTS -> new OffTypesFinding.ByPlants(part, visit, found, (int) among);
    };
  }

  /**
   * The interval of what is left, wider where off-types stand in clusters.
   *
   * @param factor {@link #clustering}
   */
  Interval interval(Roguing.Remaining rest, double factor) {
    return switch (this) {
      case AREA -> Dispersion.rate(rest.found(), rest.among(), factor, CONFIDENCE);
      case PLANTS -> Dispersion.share(rest.found(), (int) rest.among(), factor, CONFIDENCE);
    };
  }

  static Optional<Finding> clustered(double factor) {
    double tenths = Math.round(10 * factor) / 10.0;
    return tenths > 1
        ? Optional.of(new OffTypesFinding.Clustered(new Amount(tenths, "")))
        : Optional.empty();
  }

  /** How much further the single counts of what is left lie apart than chance makes them. */
  double clustering(Roguing.Remaining rest) {
    List<FieldInspection> counts =
        rest.counts().stream()
            .flatMap(count -> count.visit().counts().stream())
            .filter(count -> among(List.of(count)) > 0)
            .toList();
    if (counts.size() < 2) {
      return 1;
    }
    int[] found = counts.stream().mapToInt(FieldInspection::getOffTypePlants).toArray();
    return switch (this) {
      case AREA ->
          Dispersion.ofRates(
                  found, counts.stream().mapToDouble(FieldInspection::getAreaM2).toArray())
              .factor();
      case PLANTS ->
          Dispersion.ofShares(
                  found, counts.stream().mapToInt(FieldInspection::getPlantsCounted).toArray())
              .factor();
    };
  }

  Optional<Finding> risk(double among, Limit limit) {
    return switch (this) {
      case AREA -> SampleSize.riskOfArea(among, limit.value());
      case PLANTS -> SampleSize.riskOfShare((int) among, limit.value());
    };
  }

  /** How much more would have to be counted, with none found, to be sure of the limit. */
  Optional<Finding> settling(Roguing.Remaining rest, Limit limit) {
    return switch (this) {
      case AREA -> furtherArea(rest, limit);
      case PLANTS -> furtherPlants(rest, limit);
    };
  }

  private static Optional<Finding> furtherArea(Roguing.Remaining rest, Limit limit) {
    double enoughM2 =
        ExactPoisson.upperLimit(rest.found(), 1, 1 - CONFIDENCE) / limit.value() - rest.among();
    return enoughM2 > 0
        ? Optional.of(
            new OffTypesFinding.FurtherArea(
                Amount.squareMetres(Math.ceil(enoughM2)), Amount.percent(100 * CONFIDENCE)))
        : Optional.empty();
  }

  private static Optional<Finding> furtherPlants(Roguing.Remaining rest, Limit limit) {
    OptionalInt ifNoneBad =
        MoreUnits.toSettle(rest.found(), (int) rest.among(), limit.value(), CONFIDENCE).ifNoneBad();
    return ifNoneBad.isPresent()
        ? Optional.of(
            new OffTypesFinding.FurtherPlants(
                ifNoneBad.getAsInt(), Amount.percent(100 * CONFIDENCE)))
        : Optional.empty();
  }

  double among(List<FieldInspection> counts) {
    return switch (this) {
      case AREA -> counts.stream().mapToDouble(FieldInspection::getAreaM2).sum();
      case PLANTS ->
          counts.stream().mapToInt(FieldInspection::getPlantsCounted).reduce(0, Math::addExact);
    };
  }

  static int offTypes(List<FieldInspection> counts) {
    return counts.stream().mapToInt(FieldInspection::getOffTypePlants).reduce(0, Math::addExact);
  }
}
