package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.LotMass;

/**
 * The invented enterprise at work: its fields, its store, and the seed that one season hands to the
 * next.
 */
final class Holding {
  final Fields fields = new Fields();
  final Granary granary = new Granary();
  final Growing growing = new Growing(granary);
  final ConditioningPlant plant = new ConditioningPlant(granary);
  final Sales sales = new Sales(granary);
  private final SortedMap<String, SeedLot> parentSeed = new TreeMap<>();
  private final List<Crop> crops = new ArrayList<>();
  private final SortedMap<Integer, Integer> cropsByYear = new TreeMap<>();

  /** The next crop id of a year. */
  String nextCropId(int year) {
    return "C%02d-%02d".formatted(year % 100, cropsByYear.merge(year, 1, Integer::sum));
  }

  /** Keeps a lot as the seed of its component that was harvested in its year. */
  void keep(SeedLot lot) {
    parentSeed.put(lot.component() + "/" + lot.on().getYear(), lot);
  }

  /** Seed of a component, or a technical mixture by hybrid id, of a year. */
  SeedLot seed(String component, int year) {
    SeedLot lot = parentSeed.get(component + "/" + year);
    if (lot == null) {
      throw new IllegalStateException("No seed of " + component + " of " + year);
    }
    return lot;
  }

  /** Crops grown so far. */
  List<Crop> crops() {
    return List.copyOf(crops);
  }

  /** Declares, sows and inspects a crop that sows seed of the year before {@code year}. */
  void grow(Book book, Crop crop, int seedYear, double sheddingShare) {
    crops.add(crop);
    growing.declare(book, crop);
    growing.sow(book, crop, seedFor(book, crop, seedYear));
    Inspections.all(book, crop, sheddingShare);
  }

  /** The same with so few plants of the female looked at in flower. */
  void growCounting(Book book, Crop crop, int seedYear, int plants) {
    crops.add(crop);
    growing.declare(book, crop);
    growing.sow(book, crop, seedFor(book, crop, seedYear));
    Inspections.counting(book, crop, plants);
  }

  /** Grows a parent's crop to a conditioned, tested lot that is kept for the next season. */
  SeedLot multiply(Book book, Crop crop, int seedYear) {
    grow(book, crop, seedYear, Inspections.CLEAN);
    SeedLot raw = growing.harvest(book, crop).get(0);
    SeedLot lot = plant.clean(book, raw);
    Laboratory.all(book, lot);
    return lot;
  }

  /** Grows hybrid seed to conditioned, tested lots. */
  List<SeedLot> produceF1(Book book, Crop crop) {
    grow(book, crop, crop.year() - 1, Inspections.CLEAN);
    List<SeedLot> lots = new ArrayList<>();
    for (SeedLot raw : growing.harvest(book, crop)) {
      SeedLot lot = plant.clean(book, raw);
      Laboratory.all(book, lot);
      lots.add(lot);
    }
    return lots;
  }

  private List<LotMass> seedFor(Book book, Crop crop, int seedYear) {
    LocalDate on = Growing.sownOn(crop);
    if (crop.role() == CropRole.F1_MIXTURE) {
      return List.of(
          granary.take(book, seed(crop.hybrid().id(), seedYear), Growing.seedKg(crop, 1), on));
    }
    if (crop.role() != CropRole.STERILE_FEMALE) {
      return List.of(
          granary.take(book, seed(crop.seedComponent(), seedYear), Growing.seedKg(crop, 1), on));
    }
    SeedLot female = seed(crop.hybrid().sterileLine(), seedYear);
    SeedLot pollen = seed(crop.pollenComponent(), seedYear);
    return List.of(
        granary.take(book, female, Growing.seedKg(crop, Growing.FEMALE_STRIPS), on),
        granary.take(book, pollen, Growing.seedKg(crop, 1 - Growing.FEMALE_STRIPS), on));
  }
}
