package org.kornspur.ingest.demo;

import java.time.Instant;
import java.util.List;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;

/** A basic lot whose fault comes to light two seasons later, when its hybrid seed has been sold. */
final class PostControlStory {
  private static final String FOLDER = "05-post-control-failure";

  private final Book pages;
  private final Holding holding;

  PostControlStory(Book stories, Holding holding) {
    this.pages = stories.in(FOLDER);
    this.holding = holding;
  }

  Story tell() {
    DemoHybrid hybrid = DemoHybrid.numbered(4);
    Crop cross = Crop.singleCross("C24-S05", holding.fields.small(2024), hybrid, 2024);
    SeedLot basic = holding.multiply(pages, cross, 2023);
    PostControl.plot(pages, basic);
    ConditioningPlant.Mixture mixture =
        holding.plant.mix(
            pages,
            "M24-S05",
            hybrid,
            basic,
            holding.seed(hybrid.pollinator(), 2024),
            700,
            hybrid.sharePercent());
    Laboratory.all(pages, mixture.lot());
    Laboratory.composition(pages, mixture);
    PostControl.plot(pages, mixture.lot());
    Crop f1 = Crop.f1("C25-S05", holding.fields.small(2025), hybrid, 2025);
    holding.growing.declare(pages, f1);
    holding.growing.sow(
        pages, f1, List.of(holding.granary.take(mixture.lot(), Growing.seedKg(f1, 1))));
    Inspections.all(pages, f1, Inspections.CLEAN);
    SeedLot raw = holding.growing.harvest(pages, f1).get(0);
    SeedLot certified = holding.plant.clean(pages, raw);
    Laboratory.all(pages, certified);
    holding.sales.splitAndDispatch(pages, certified);
    pages.add(failure(basic));
    return new Story(
        FOLDER,
        "A post-control failure on a basic lot, two seasons later",
        "Basic lot L24-S05 (single cross SC-04) passed its plot in 2025 and went by way of mixture"
            + " M24-S05 and crop C25-S05 into certified seed, sold in 2025. On 12 October 2026 a"
            + " marker test of the sample kept back finds 34 of 480 plants not true to type.",
        Story.looks()
            .notFit(
                "lot:L24-S05",
                "lot:M24-S05",
                "crop:C25-S05",
                "lot:R25-S05",
                "lot:L25-S05",
                "lot:L25-S05-P1")
            .fit(
                "crop:C24-S05",
                "lot:" + holding.seed(hybrid.sterileLine(), 2023).lotId(),
                "lot:" + holding.seed(hybrid.fertileLine(), 2023).lotId())
            .list(),
        "L24-S05 not fit on post-control, and every descendant down to the parts at the customers,"
            + " each with the path back to L24-S05. The crop that it came from and its parents stay fit.");
  }

  private static PostControlResult failure(SeedLot basic) {
    return PostControlResult.newBuilder()
        .setHeader(
            Heads.head(
                "post-control-" + basic.lotId() + "-marker",
                "lims-02",
                Instant.parse("2026-10-09T11:00:00Z"),
                Instant.parse("2026-10-12T08:30:00Z"),
                "marker report 2026/S05"))
        .setLotId(basic.lotId())
        .setMethod(PostControlMethod.MARKER)
        .setPlotOrTestId("MARKER-2026-S05")
        .setPlantsExamined(480)
        .setIdentityConfirmed(true)
        .setOffTypePlants(34)
        .setSheddingPlants(null)
        .setNonHybridPlants(null)
        .setStatedPurityPercent(PostControl.STATED_PURITY_PERCENT)
        .setLaboratoryId(Enterprises.LABORATORIES.get(0))
        .setFalsePositivePercent(Laboratory.FALSE_POSITIVE_PERCENT)
        .setFalseNegativePercent(Laboratory.FALSE_NEGATIVE_PERCENT)
        .build();
  }
}
