package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.FloweringSeen;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.Sowing;

/** What growers do: declare a crop, sow it, harvest it. */
final class Growing {
  /** A crop of which somebody noted how both components flowered. */
  private static final String FLOWERING_SEEN_AT = "C25-01";

  /** Kilograms a hectare of what is sown; common practice, no source. */
  static final double SEED_RATE_KG_HA = 60;

  /** Share of the area that the female strips take beside their pollen parent. */
  static final double FEMALE_STRIPS = 2.0 / 3;

  /** A harvested lot stays below the thirty tonnes that a certified lot may have. */
  private static final double GREATEST_RAW_LOT_KG = 27_500;

  private final Granary granary;
  private final Map<String, TreeSet<Integer>> yearsOfRye = new HashMap<>();

  Growing(Granary granary) {
    this.granary = granary;
  }

  void declare(Book book, Crop crop) {
    Draw draw = Draw.of("flowering", crop.cropId());
    LocalDate flowering = crop.on(5, 28).plusDays(draw.between(0, 5));
    FieldCropDeclared.Builder declared =
        FieldCropDeclared.newBuilder()
            .setHeader(
                Heads.head(
                    "crop-" + crop.cropId(),
                    "grower-" + crop.growerId().substring("ENT-MULT-".length()),
                    LocalDate.of(crop.year() - 1, 10, draw.between(5, 25)),
                    "application for certification " + crop.cropId()))
            .setCropId(crop.cropId())
            .setFieldId(crop.field().fieldId())
            .setEnterpriseId(crop.growerId())
            .setHybridId(crop.hybrid().id())
            .setRole(crop.role())
            .setSeedComponentId(crop.seedComponent())
            .setPollenComponentId(crop.pollenComponent())
            .setCropYear(crop.year())
            .setCategory(crop.category())
            .setRulebookId(crop.hybrid().rulebookId())
            .setOutline(crop.field().outline())
            .setFloweringFrom(flowering)
            .setFloweringTo(flowering.plusDays(draw.between(12, 16)))
            .setYearsWithoutRye(yearsWithoutRye(crop));
    book.season(crop.year()).add(declared.build());
    if (crop.cropId().equals(FLOWERING_SEEN_AT)) {
      seen(book, crop, FloweringPart.FEMALE, flowering.plusDays(1));
      seen(book, crop, FloweringPart.POLLEN_PARENT, flowering.plusDays(3));
    }
  }

  /** Begin, full and end of one component's flowering. */
  private static void seen(Book book, Crop crop, FloweringPart part, LocalDate begin) {
    Map.of(61, begin, 65, begin.plusDays(4), 69, begin.plusDays(9)).entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .forEach(
            stage ->
                book.season(crop.year())
                    .add(
                        FloweringSeen.newBuilder()
                            .setHeader(
                                Heads.head(
                                    "flowering-%s-%s-%d"
                                        .formatted(crop.cropId(), part, stage.getKey()),
                                    "grower-" + crop.growerId().substring("ENT-MULT-".length()),
                                    stage.getValue(),
                                    "field book " + crop.cropId()))
                            .setCropId(crop.cropId())
                            .setPart(part)
                            .setBbchStage(stage.getKey())
                            .build()));
  }

  /** By the earlier crops of the demo on the field, else some years. */
  private int yearsWithoutRye(Crop crop) {
    TreeSet<Integer> years =
        yearsOfRye.computeIfAbsent(crop.field().fieldId(), field -> new TreeSet<>());
    Integer before = years.lower(crop.year());
    years.add(crop.year());
    return before == null
        ? Draw.of("previous crops", crop.cropId()).between(3, 6)
        : crop.year() - before - 1;
  }

  void sow(Book book, Crop crop, List<LotMass> sown) {
    Draw draw = Draw.of("sowing", crop.cropId());
    book.season(crop.year())
        .add(
            new Sowing(
                Heads.head(
                    "sowing-" + crop.cropId(),
                    "phone-" + draw.between(11, 29),
                    sownOn(crop),
                    "sowing record " + crop.cropId()),
                crop.cropId(),
                sown,
                crop.field().areaHa()));
  }

  static LocalDate sownOn(Crop crop) {
    Draw draw = Draw.of("sowing", crop.cropId());
    draw.between(11, 29); // the phone that records it
    return LocalDate.of(crop.year() - 1, 9, draw.between(26, 30));
  }

  /** Kilograms of one seed for a share of the crop's area. */
  static double seedKg(Crop crop, double shareOfArea) {
    return Draw.rounded(crop.field().areaHa() * shareOfArea * SEED_RATE_KG_HA, 1);
  }

  /** Harvests the whole crop into as many lots as their size asks for. */
  List<SeedLot> harvest(Book book, Crop crop) {
    double massKg = yieldKg(crop);
    int lots = (int) Math.ceil(massKg / GREATEST_RAW_LOT_KG);
    List<SeedLot> harvested = new ArrayList<>();
    for (int i = 1; i <= lots; i++) {
      String lotId = "R" + crop.stem() + (lots == 1 ? "" : "-" + i);
      harvested.add(harvest(book, crop, lotId, Draw.rounded(massKg / lots, -1)));
    }
    return harvested;
  }

  /** Harvests a mass from the crop into one lot. */
  SeedLot harvest(Book book, Crop crop, String lotId, double massKg) {
    SeedLot lot = rawLot(crop, lotId, massKg);
    book.season(crop.year()).add(harvested(crop, lot, "harvest-" + lotId));
    granary.store(lot);
    return lot;
  }

  static SeedLot rawLot(Crop crop, String lotId, double massKg) {
    LocalDate on = crop.on(7, 24).plusDays(Draw.of("harvest", crop.cropId()).between(0, 12));
    return new SeedLot(lotId, crop.hybrid(), crop.seedComponent(), crop.category(), massKg, on);
  }

  static Harvest harvested(Crop crop, SeedLot lot, String factId) {
    return Harvest.newBuilder()
        .setHeader(
            Heads.head(
                factId,
                "weighbridge-0" + Draw.of("weighbridge", lot.lotId()).between(1, 3),
                lot.on(),
                "weighbridge ticket " + lot.lotId()))
        .setCropId(crop.cropId())
        .setLotId(lot.lotId())
        .setMassKg(lot.massKg())
        .setPollenParentRemoved(crop.role() == CropRole.STERILE_FEMALE ? true : null)
        .build();
  }

  private static double yieldKg(Crop crop) {
    Draw draw = Draw.of("yield", crop.cropId());
    double kgHa =
        switch (crop.role()) {
          case STERILE_FEMALE ->
              crop.seedComponent().equals(crop.hybrid().singleCross())
                  ? FEMALE_STRIPS * draw.between(3000, 3900)
                  : FEMALE_STRIPS * draw.between(1100, 1900);
          case MAINTAINER, FERTILE_LINE -> draw.between(1200, 2200);
          case POLLINATOR -> draw.between(1900, 2800);
          case F1_MIXTURE -> draw.between(4700, 5400);
        };
    return Draw.rounded(crop.field().areaHa() * kgHa, -1);
  }
}
