package org.kornspur.ingest.demo;

import java.time.LocalDate;
import org.kornspur.contract.Category;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;

/** Post-control plots: plants of a lot grown the season after. */
final class PostControl {
  private static final int PARENT_PLANTS = 2000;
  private static final int F1_PLANTS = 1000;

  /** Varietal purity that the invented breeder states for parents, percent. */
  static final double STATED_PURITY_PERCENT = 99.7;

  private PostControl() {}

  /** A good result of the summer after the lot came to be. */
  static void plot(Book book, SeedLot lot) {
    int year = lot.on().getYear() + 1;
    Draw draw = Draw.of("post-control", lot.lotId());
    boolean certified = lot.category() == Category.CERTIFIED;
    boolean sterile =
        lot.component().equals(lot.hybrid().sterileLine())
            || lot.component().equals(lot.hybrid().singleCross());
    book.season(year)
        .add(
            PostControlResult.newBuilder()
                .setHeader(
                    Heads.head(
                        "post-control-" + lot.lotId(),
                        "inspector-0" + draw.between(6, 8),
                        LocalDate.of(year, 6, draw.between(14, 28)),
                        "post-control book %d".formatted(year)))
                .setLotId(lot.lotId())
                .setMethod(PostControlMethod.PLOT)
                .setPlotOrTestId("PLOT-%d-%s".formatted(year, lot.lotId()))
                .setPlantsExamined(certified ? F1_PLANTS : PARENT_PLANTS)
                .setIdentityConfirmed(true)
                .setOffTypePlants(draw.between(0, 1))
                .setSheddingPlants(sterile ? Integer.valueOf(draw.between(0, 1)) : null)
                .setNonHybridPlants(certified ? Integer.valueOf(draw.between(36, 56)) : null)
                .setStatedPurityPercent(certified ? null : Double.valueOf(STATED_PURITY_PERCENT))
                .build());
  }
}
