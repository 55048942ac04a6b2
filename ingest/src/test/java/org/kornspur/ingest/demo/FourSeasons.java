package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;

/**
 * The work that goes well: lines multiplied for harvest 2023, single crosses and pollinators for
 * 2024, mixtures sown and hybrid seed harvested in 2025 and 2026.
 */
final class FourSeasons {
  /** Mixture made beyond what the crops of the plan sow, kilograms: seed for the stories. */
  private static final double SPARE_MIXTURE_KG = 1_200;

  private static final double BREEDERS_LOT_KG = 450;

  private final Book book;
  private final Holding holding;

  FourSeasons(Book book, Holding holding) {
    this.book = book;
    this.holding = holding;
  }

  void write() {
    Enterprises.declareAll(book.in("2022"));
    DemoHybrid.declareAll(book.in("2022"));
    DemoHybrid.ALL.forEach(this::declareBreedersSeed);
    DemoHybrid.ALL.forEach(this::multiplyLines);
    DemoHybrid.ALL.forEach(this::crossAndMultiplyPollinator);
    for (int year : List.of(2025, 2026)) {
      DemoHybrid.ALL.forEach(hybrid -> makeHybridSeed(hybrid, year));
      if (year == 2025) {
        DemoHybrid.ALL.forEach(this::crossAgain);
      }
    }
    multiplyPollinatorForNextYear();
    admixOpenPollinatedRye();
    PollenSources.farAway(book, holding.crops());
  }

  private void declareBreedersSeed(DemoHybrid hybrid) {
    declare(hybrid, hybrid.sterileLine(), Category.PRE_BASIC);
    declare(hybrid, hybrid.maintainer(), Category.PRE_BASIC);
    declare(hybrid, hybrid.fertileLine(), Category.PRE_BASIC);
    if (hybrid.ownsPollinator()) {
      declare(hybrid, hybrid.pollinator(), Category.PRE_BASIC);
    }
  }

  private SeedLot declare(DemoHybrid hybrid, String component, Category category) {
    return declare(
        new SeedLot(
            "P22-" + component,
            hybrid,
            component,
            category,
            BREEDERS_LOT_KG,
            LocalDate.of(2022, 8, 20)));
  }

  private SeedLot declare(SeedLot lot) {
    book.season(lot.on().getYear())
        .add(
            new LotDeclared(
                Heads.head(
                    "lot-" + lot.lotId(),
                    "breeder-01",
                    lot.on(),
                    "breeder's delivery note " + lot.lotId()),
                lot.lotId(),
                lot.hybrid().id(),
                lot.component(),
                lot.category(),
                Enterprises.BREEDER,
                lot.hybrid().rulebookId(),
                lot.on().getYear(),
                lot.massKg()));
    holding.granary.store(lot);
    Laboratory.all(book, lot);
    if (lot.category() != Category.CERTIFIED) {
      PostControl.plot(book, lot);
      holding.keep(lot);
    }
    return lot;
  }

  private void multiplyLines(DemoHybrid hybrid) {
    multiply(Crop.sterileLine(cropId(2023), small(2023), hybrid, 2023), 2022);
    multiply(fertile(hybrid, CropRole.FERTILE_LINE, hybrid.fertileLine(), 2023), 2022);
    if (hybrid.ownsPollinator()) {
      multiply(fertile(hybrid, CropRole.POLLINATOR, hybrid.pollinator(), 2023), 2022);
    }
    boolean maintainerRunsLow = hybrid.number() % 2 == 1;
    if (maintainerRunsLow) {
      multiply(fertile(hybrid, CropRole.MAINTAINER, hybrid.maintainer(), 2023), 2022);
    }
  }

  private void crossAndMultiplyPollinator(DemoHybrid hybrid) {
    multiply(Crop.singleCross(cropId(2024), small(2024), hybrid, 2024), 2023);
    if (hybrid.ownsPollinator()) {
      multiply(fertile(hybrid, CropRole.POLLINATOR, hybrid.pollinator(), 2024), 2023);
    }
  }

  /** The second single cross, from line seed that is two years old, for hybrid seed of 2026. */
  private void crossAgain(DemoHybrid hybrid) {
    DemoField field =
        hybrid.rulebookId().equals("DE")
            ? holding.fields.smallAndRested(2025)
            : holding.fields.small(2025);
    multiply(Crop.singleCross(cropId(2025), field, hybrid, 2025), 2023);
  }

  /** Seed for the year after; its post-control is not grown before 2027. */
  private void multiplyPollinatorForNextYear() {
    DemoHybrid hybrid = DemoHybrid.numbered(1);
    multiply(fertile(hybrid, CropRole.POLLINATOR, hybrid.pollinator(), 2026), 2024);
  }

  private void multiply(Crop crop, int seedYear) {
    SeedLot lot = holding.multiply(book, crop, seedYear);
    holding.keep(lot);
    if (crop.year() < 2026) {
      PostControl.plot(book, lot);
    }
  }

  private void makeHybridSeed(DemoHybrid hybrid, int year) {
    List<Crop> crops = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      crops.add(Crop.f1(cropId(year), holding.fields.large(year), hybrid, year));
    }
    double sownKg = crops.stream().mapToDouble(crop -> Growing.seedKg(crop, 1)).sum();
    ConditioningPlant.Mixture mixture =
        holding.plant.mix(
            book,
            "M%02d-0%d".formatted((year - 1) % 100, hybrid.number()),
            hybrid,
            holding.seed(hybrid.singleCross(), year - 1),
            holding.seed(hybrid.pollinator(), 2024),
            sownKg + SPARE_MIXTURE_KG,
            hybrid.sharePercent());
    Laboratory.all(book, mixture.lot());
    Laboratory.composition(book, mixture);
    PostControl.plot(book, mixture.lot());
    holding.keep(mixture.lot());
    Map<String, List<SeedLot>> byCrop = new TreeMap<>();
    for (Crop crop : crops) {
      byCrop.put(crop.cropId(), holding.produceF1(book, crop));
    }
    byCrop.values().forEach(lots -> sell(lots, year));
  }

  private void sell(List<SeedLot> lots, int year) {
    if (lots.get(0).hybrid().number() == 6 && lots.size() > 1) {
      merge(lots.get(0), lots.get(1));
    }
    for (SeedLot lot : lots) {
      holding.sales.splitAndDispatch(book, lot);
    }
    if (year == 2025) {
      PostControl.plot(book, lots.get(0));
    }
  }

  /** Part of two lots of one harvest put together, as a customer's order asked. */
  private void merge(SeedLot one, SeedLot other) {
    LocalDate on = one.on().isAfter(other.on()) ? one.on() : other.on();
    List<LotMass> inputs =
        List.of(holding.granary.take(one, 4_000), holding.granary.take(other, 4_000));
    SeedLot merged =
        new SeedLot(
            one.lotId().replaceFirst("^L", "G"),
            one.hybrid(),
            one.component(),
            one.category(),
            8_000,
            on.plusDays(2));
    holding.granary.store(merged);
    book.season(on.getYear())
        .add(
            new LotMerge(
                Heads.head(
                    "merge-" + merged.lotId(),
                    "plant-01",
                    merged.on(),
                    "mixing order " + merged.lotId()),
                inputs,
                merged.lotId()));
    Laboratory.all(book, merged);
    holding.sales.splitAndDispatch(book, merged);
  }

  /** A tenth of open-pollinated rye added to hybrid seed for sale. */
  private void admixOpenPollinatedRye() {
    DemoHybrid hybrid = DemoHybrid.numbered(4);
    SeedLot rye =
        declare(
            new SeedLot(
                "P26-OPR-01",
                hybrid,
                "OPR-01",
                Category.CERTIFIED,
                2_000,
                LocalDate.of(2026, 8, 12)));
    Crop crop = Crop.f1(cropId(2026), small(2026), hybrid, 2026);
    SeedLot f1 = holding.produceF1(book, crop).get(0);
    LotMass hybridKg = holding.granary.take(f1, 9_000);
    LotMass ryeKg = holding.granary.take(rye, 900);
    SeedLot admixed =
        new SeedLot(
            "X" + crop.stem(),
            hybrid,
            hybrid.id(),
            Category.CERTIFIED,
            9_900,
            LocalDate.of(2026, 9, 4));
    holding.granary.store(admixed);
    book.season(2026)
        .add(
            new Admixture(
                Heads.head(
                    "admixture-" + admixed.lotId(),
                    "plant-02",
                    admixed.on(),
                    "mixing order " + admixed.lotId()),
                List.of(hybridKg),
                List.of(ryeKg),
                admixed.lotId()));
    Laboratory.all(book, admixed);
    holding.sales.splitAndDispatch(book, f1);
  }

  private Crop fertile(DemoHybrid hybrid, CropRole role, String line, int year) {
    return Crop.fertile(cropId(year), small(year), hybrid, role, line, year);
  }

  private String cropId(int year) {
    return holding.nextCropId(year);
  }

  private DemoField small(int year) {
    return holding.fields.small(year);
  }
}
