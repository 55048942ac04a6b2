package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.kornspur.contract.LotMass;

/**
 * What is left of each lot, so that the demo gives out no more than it holds unless it means to.
 */
final class Granary {
  private final Map<String, Double> leftKg = new HashMap<>();
  private final Set<String> testedAgain = new HashSet<>();

  void store(SeedLot lot) {
    leftKg.put(lot.lotId(), lot.massKg());
  }

  /** Takes seed out of a lot. */
  LotMass take(SeedLot lot, double massKg) {
    double left = left(lot) - massKg;
    if (left < 0) {
      throw new IllegalStateException(
          "%s holds %s kg and cannot give out %s kg".formatted(lot.lotId(), left(lot), massKg));
    }
    leftKg.put(lot.lotId(), Draw.rounded(left, 1));
    return new LotMass(lot.lotId(), massKg);
  }

  /**
   * Takes seed out of a lot on a day; what was carried over to it is tested again, once a season.
   */
  LotMass take(Book book, SeedLot lot, double massKg, LocalDate used) {
    if (used.isAfter(Laboratory.germinationGoodUntil(lot))
        && testedAgain.add(lot.lotId() + " " + used.getYear())) {
      Laboratory.carriedOver(book, lot, used);
    }
    return take(lot, massKg);
  }

  LotMass takeAll(SeedLot lot) {
    return take(lot, left(lot));
  }

  double left(SeedLot lot) {
    return leftKg.getOrDefault(lot.lotId(), 0.0);
  }
}
