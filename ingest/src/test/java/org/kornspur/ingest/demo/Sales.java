package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotSplit;

/** Seed made ready and sent to customers. */
final class Sales {
  private static final double PART_KG = 9_000;

  private final Granary granary;

  Sales(Granary granary) {
    this.granary = granary;
  }

  /** Divides what is left of a lot into parts and sends most of them out. */
  void splitAndDispatch(Book book, SeedLot lot) {
    double massKg = granary.left(lot);
    int parts = (int) Math.ceil(massKg / PART_KG);
    LocalDate on = lot.on().plusDays(14);
    List<LotMass> masses = new ArrayList<>();
    List<SeedLot> split = new ArrayList<>();
    for (int i = 1; i <= parts; i++) {
      SeedLot part =
          new SeedLot(
              lot.lotId() + "-P" + i,
              lot.hybrid(),
              lot.component(),
              lot.category(),
              Math.floor(massKg / parts),
              on);
      granary.store(part);
      split.add(part);
      masses.add(granary.take(lot, part.massKg()));
      masses.set(i - 1, new LotMass(part.lotId(), part.massKg()));
    }
    book.season(on.getYear())
        .add(
            new LotSplit(
                Heads.head("split-" + lot.lotId(), "plant-03", on, "bagging order " + lot.lotId()),
                lot.lotId(),
                masses));
    for (SeedLot part : split) {
      if (Draw.of("sold", part.lotId()).share() < 0.85) {
        dispatch(book, part);
      }
    }
  }

  private void dispatch(Book book, SeedLot part) {
    Draw draw = Draw.of("dispatch", part.lotId());
    double firstKg = Math.floor(part.massKg() * draw.between(0.4, 0.7, 2) / 25) * 25;
    dispatch(book, part, 1, firstKg);
    dispatch(book, part, 2, Math.floor(granary.left(part) / 25) * 25);
  }

  private void dispatch(Book book, SeedLot part, int number, double massKg) {
    granary.take(part, massKg);
    book.season(part.on().getYear()).add(dispatched(part, number, massKg));
  }

  /** A dispatch, whether the lot holds so much or not. */
  static Dispatch dispatched(SeedLot lot, int number, double massKg) {
    String factId = "dispatch-%s-%d".formatted(lot.lotId(), number);
    Draw draw = Draw.of(factId);
    int first = draw.between(100_000, 899_999);
    return new Dispatch(
        Heads.head(
            factId,
            "office-0" + draw.between(1, 3),
            lot.on().plusDays(draw.between(1, 9)),
            "delivery note " + factId.substring("dispatch-".length())),
        lot.lotId(),
        draw.oneOf(Enterprises.CUSTOMERS),
        massKg,
        List.of("INV-" + first, "INV-" + (first + 1 + (int) (massKg / 500))));
  }
}
