package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.List;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;

/**
 * Evidence that does not make seed fit: tested until it passes, merged away, counted too thinly.
 */
final class EvidenceStories {
  private static final int FEW_PLANTS = 120;

  private final Book book;
  private final Holding holding;

  EvidenceStories(Book stories, Holding holding) {
    this.book = stories;
    this.holding = holding;
  }

  List<Story> tell() {
    return List.of(testedUntilItPasses(), mergedAway(), tooFewPlants());
  }

  private Story testedUntilItPasses() {
    String folder = "14-tested-until-it-passes";
    Book pages = book.in(folder);
    SeedLot lot = lots(pages, "C25-S14", 2, List.of("L25-S14")).get(0);
    Laboratory.failedPurity(pages, lot);
    Laboratory.all(pages, lot);
    return new Story(
        folder,
        "A purity test that failed, and a second that passed",
        "Lot L25-S14 came to 97.4 % pure seed, where 98 % are asked for. The same sample was tested"
            + " again a day later and passed.",
        Story.looks().notFit("lot:L25-S14").list(),
        "Not fit: the first result stands beside the verdict, and a further test does not undo it.");
  }

  private Story mergedAway() {
    String folder = "15-merged-away";
    Book pages = book.in(folder);
    List<SeedLot> parts = lots(pages, "C25-S15", 2, List.of("L25-S15A", "L25-S15B"));
    SeedLot failed = parts.get(0);
    SeedLot good = parts.get(1);
    Laboratory.failedPurity(pages, failed);
    Laboratory.all(pages, good);
    List<LotMass> inputs = List.of(holding.granary.takeAll(failed), holding.granary.takeAll(good));
    SeedLot merged =
        new SeedLot(
            "G25-S15",
            good.hybrid(),
            good.component(),
            good.category(),
            inputs.stream().mapToDouble(LotMass::getMassKg).sum(),
            LocalDate.of(2025, 9, 20));
    holding.granary.store(merged);
    pages.add(
        new LotMerge(
            Heads.head("merge-G25-S15", "plant-01", merged.on(), "mixing order G25-S15"),
            inputs,
            merged.lotId()));
    Laboratory.all(pages, merged);
    return new Story(
        folder,
        "A failed lot merged into a good one",
        "Lot L25-S15A failed its purity test and was merged with L25-S15B. The merged lot passed.",
        Story.looks()
            .notFit("lot:" + failed.lotId(), "lot:" + merged.lotId())
            .fit("lot:" + good.lotId())
            .list(),
        "Not fit: the merged lot says which share of it failed. Cleaning would help, merging does"
            + " not.");
  }

  private Story tooFewPlants() {
    String folder = "16-too-few-plants";
    Book pages = book.in(folder);
    DemoHybrid hybrid = DemoHybrid.numbered(2);
    Crop crop = Crop.singleCross("C25-S16", holding.fields.small(2025), hybrid, 2025);
    holding.growCounting(pages, crop, 2023, FEW_PLANTS);
    return new Story(
        folder,
        "Too few plants in flower",
        "At both visits in flower the inspector looked at 120 plants of the female of crop C25-S16"
            + " and found none that shed.",
        Story.looks().owed("crop:" + crop.cropId()).list(),
        "Evidence owed: the crop says how many plants are asked for, and how often a bad crop would"
            + " pass with so few.");
  }

  private List<SeedLot> lots(Book pages, String cropId, int hybrid, List<String> lotIds) {
    Crop crop = Crop.f1(cropId, holding.fields.small(2025), DemoHybrid.numbered(hybrid), 2025);
    holding.grow(pages, crop, 2024, Inspections.CLEAN);
    SeedLot raw = holding.growing.harvest(pages, crop).get(0);
    return holding.plant.clean(pages, raw, lotIds);
  }
}
