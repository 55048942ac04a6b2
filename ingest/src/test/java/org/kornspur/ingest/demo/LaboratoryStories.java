package org.kornspur.ingest.demo;

import java.util.List;
import org.kornspur.contract.GerminationReplicate;

/** Trouble in the laboratory: replicates apart, ergot, results before the harvest. */
final class LaboratoryStories {
  private static final int TOO_MANY_ERGOT_BODIES = 9;

  private final Book book;
  private final Holding holding;

  LaboratoryStories(Book stories, Holding holding) {
    this.book = stories;
    this.holding = holding;
  }

  List<Story> tell() {
    return List.of(replicatesApart(), ergot(), outOfOrder());
  }

  private Story replicatesApart() {
    String folder = "04-replicates-out-of-tolerance";
    Book pages = book.in(folder);
    List<SeedLot> lots = twoLots(pages, "C25-S04", 2, 2025);
    SeedLot owing = lots.get(0);
    SeedLot retested = lots.get(1);
    List<GerminationReplicate> apart = Laboratory.hundreds(98, 83, 95, 92);
    String first = "germination-" + owing.lotId();
    String second = "germination-" + retested.lotId();
    Laboratory.allButGermination(pages, owing);
    pages.add(Laboratory.germinationTest(owing, first, apart, null));
    Laboratory.allButGermination(pages, retested);
    pages.add(Laboratory.germinationTest(retested, second, apart, null));
    pages.add(
        Laboratory.germinationTest(
            retested, second + "-retest", Laboratory.hundreds(93, 95, 92, 94), second));
    return new Story(
        folder,
        "A germination test with replicates out of tolerance",
        "Replicates 98, 83, 95, 92: mean 92, range 15, where 11 is the most. Lot "
            + retested.lotId()
            + " was tested again; "
            + owing.lotId()
            + " was not.",
        Story.looks().owed("lot:" + owing.lotId()).fit("lot:" + retested.lotId()).list(),
        owing.lotId() + " owes a retest; " + retested.lotId() + " is fit on its retest.");
  }

  private Story ergot() {
    String folder = "10-ergot-over-the-limit";
    Book pages = book.in(folder);
    Crop crop = f1("C25-S10", 2, 2025);
    holding.grow(pages, crop, 2024, Inspections.CLEAN);
    SeedLot raw = holding.growing.harvest(pages, crop).get(0);
    SeedLot lot = holding.plant.clean(pages, raw);
    Laboratory.allWithErgot(pages, lot, TOO_MANY_ERGOT_BODIES);
    return new Story(
        folder,
        "An ergot count over the limit",
        "Nine ergot bodies in 500 g of lot " + lot.lotId() + ". Ergot is poisonous.",
        Story.looks()
            .notFit("lot:" + lot.lotId())
            .fit("lot:" + raw.lotId(), "crop:" + crop.cropId())
            .list(),
        "The lot is not fit (at most 4); the crop and the raw lot are not touched by it.");
  }

  private Story outOfOrder() {
    String folder = "11-facts-out-of-order";
    Crop crop = f1("C26-S11", 6, 2026);
    Book field = book.in(folder).in("b-field");
    Book plant = book.in(folder).in("c-plant");
    holding.grow(field, crop, 2025, Inspections.CLEAN);
    SeedLot raw = holding.growing.harvest(field, crop).get(0);
    SeedLot lot = holding.plant.clean(plant, raw);
    Laboratory.all(book.in(folder).in("a-laboratory"), lot);
    holding.sales.splitAndDispatch(book.in(folder).in("a-dispatch"), lot);
    return new Story(
        folder,
        "Facts out of order",
        "The files are read in name order: dispatch first, then the laboratory's results, then the"
            + " field with its harvest, and the conditioning last.",
        Story.looks()
            .fit("lot:" + lot.lotId(), "lot:" + raw.lotId(), "crop:" + crop.cropId())
            .list(),
        "Fit, as if they had come in order.");
  }

  private List<SeedLot> twoLots(Book pages, String cropId, int hybrid, int year) {
    Crop crop = f1(cropId, hybrid, year);
    holding.grow(pages, crop, year - 1, Inspections.CLEAN);
    SeedLot raw = holding.growing.harvest(pages, crop).get(0);
    String lotId = "L" + crop.stem();
    return holding.plant.clean(pages, raw, List.of(lotId + "A", lotId + "B"));
  }

  private Crop f1(String cropId, int hybrid, int year) {
    return Crop.f1(cropId, holding.fields.small(year), DemoHybrid.numbered(hybrid), year);
  }
}
