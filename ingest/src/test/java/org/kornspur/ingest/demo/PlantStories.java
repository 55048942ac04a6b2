package org.kornspur.ingest.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Harvest;

/**
 * Trouble at the weighbridge and in the plant: a wrong share, a slip of the key, seed from nowhere.
 */
final class PlantStories {
  private static final double TRUE_KG = 1_240;
  private static final double TYPED_KG = 12_400;

  private final Book book;
  private final Holding holding;

  PlantStories(Book stories, Holding holding) {
    this.book = stories;
    this.holding = holding;
  }

  List<Story> tell() {
    return List.of(wrongShare(), typingError(), moreOutThanIn());
  }

  private Story wrongShare() {
    String folder = "03-blend-with-wrong-share";
    DemoHybrid hybrid = DemoHybrid.numbered(6);
    Book pages = book.in(folder);
    ConditioningPlant.Mixture mixture =
        holding.plant.mix(
            pages,
            "M25-S03",
            hybrid,
            holding.seed(hybrid.singleCross(), 2025),
            holding.seed(hybrid.pollinator(), 2024),
            800,
            12);
    Laboratory.all(pages, mixture.lot());
    Laboratory.composition(pages, mixture);
    PostControl.plot(pages, mixture.lot());
    return new Story(
        folder,
        "A blend with the wrong share",
        "Mixture M25-S03 was to have 4 % of pollinator and got 12 %; the marker test of its kernels"
            + " says the same.",
        Story.looks().notFit("lot:M25-S03").unjudged("hybrid:HYB-06").list(),
        "Blend share not met: about 12 % of viable kernels where the breeder states 4 ± 1.5.");
  }

  private Story typingError() {
    String folder = "06-typing-error-corrected";
    DemoHybrid hybrid = DemoHybrid.numbered(6);
    Book pages = book.in(folder);
    Crop crop =
        Crop.fertile(
            "C25-S06",
            holding.fields.small(2025),
            hybrid,
            CropRole.POLLINATOR,
            hybrid.pollinator(),
            2025);
    holding.grow(pages, crop, 2023, Inspections.CLEAN);
    SeedLot raw = Growing.rawLot(crop, "R25-S06", TRUE_KG);
    SeedLot typed = Growing.rawLot(crop, "R25-S06", TYPED_KG);
    holding.granary.store(raw);
    pages.add(Growing.harvested(crop, typed, "harvest-R25-S06"));
    Harvest mended = Growing.harvested(crop, raw, "harvest-R25-S06-b");
    Instant weighed = Heads.during("harvest-R25-S06", raw.on());
    FactHeader head =
        Heads.head(
            "harvest-R25-S06-b",
            "office-02",
            weighed,
            weighed.plus(Duration.ofHours(46)),
            "weighbridge ticket R25-S06");
    pages.add(
        Harvest.newBuilder(mended)
            .setHeader(
                Heads.correcting(
                    head,
                    "harvest-R25-S06",
                    "A nought too many was typed: the weighbridge ticket says 1,240 kg"))
            .build());
    SeedLot lot = holding.plant.clean(pages, raw);
    Laboratory.all(pages, lot);
    PostControl.plot(pages, lot);
    return new Story(
        folder,
        "A corrected typing error",
        "The harvest of lot R25-S06 was keyed in as 12,400 kg and corrected to 1,240 kg two days"
            + " later.",
        Story.looks().fit("crop:C25-S06", "lot:R25-S06", "lot:L25-S06").list(),
        "R25-S06 holds 1,240 kg; both facts are on record, the first superseded, with the reason.");
  }

  private Story moreOutThanIn() {
    String folder = "09-more-out-than-in";
    DemoHybrid hybrid = DemoHybrid.numbered(1);
    Book pages = book.in(folder);
    Crop crop = Crop.f1("C26-S09", holding.fields.small(2026), hybrid, 2026);
    SeedLot lot = holding.produceF1(pages, crop).get(0);
    double halfKg = Math.floor(lot.massKg() / 2);
    SeedLot ready =
        new SeedLot(
            lot.lotId(),
            hybrid,
            lot.component(),
            lot.category(),
            lot.massKg(),
            LocalDate.of(2026, 9, 1));
    pages.add(Sales.dispatched(ready, 1, halfKg));
    pages.add(Sales.dispatched(ready, 2, halfKg + 600));
    return new Story(
        folder,
        "A lot that gave out more than it holds",
        "Two deliveries of lot " + lot.lotId() + " come to 600 kg more than was ever in it.",
        Story.looks().notFit("lot:" + lot.lotId()).list(),
        "Mass balance not met: seed from elsewhere must be among it.");
  }
}
