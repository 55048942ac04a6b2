package org.kornspur.ingest.demo;

import java.time.LocalDate;
import org.kornspur.contract.Category;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.SterilityCheck;

/** What inspectors count in the field. */
final class Inspections {
  /** Share of shedding plants in a female as it should be. */
  static final double CLEAN = 0.0004;

  private static final double COUNTED_AREA_M2 = 150;
  private static final int COUNTED_PLANTS = 6000;
  private static final int EXAMINED_PLANTS = 1000;
  private static final int BAGGED_EARS = 100;

  private Inspections() {}

  /**
   * One visit at heading and two in flower, and the check of the female's sterility.
   *
   * @param sheddingShare share of the female plants that shed pollen, 0 to 1
   */
  static void all(Book book, Crop crop, double sheddingShare) {
    visits(book, crop, sheddingShare, COUNTED_PLANTS);
    if (crop.hasSterileFemale()) {
      sterility(book, crop, sheddingShare);
    }
  }

  /** The same of a clean crop, with so few plants of the female looked at in flower. */
  static void counting(Book book, Crop crop, int plants) {
    visits(book, crop, 0, plants);
    sterility(book, crop, CLEAN);
  }

  private static void visits(Book book, Crop crop, double sheddingShare, int plants) {
    visit(book, crop, 1, 55, crop.on(5, 22), sheddingShare, plants);
    visit(book, crop, 2, 63, crop.on(6, 3), sheddingShare, plants);
    visit(book, crop, 3, 67, crop.on(6, 10), sheddingShare, plants);
  }

  private static void visit(
      Book book, Crop crop, int visit, int bbch, LocalDate day, double sheddingShare, int plants) {
    LocalDate on = day.plusDays(Draw.of("visit", crop.cropId()).between(0, 3));
    if (!crop.hasSterileFemale()) {
      book.season(crop.year())
          .add(count(crop, visit, bbch, on, InspectedPart.WHOLE_CROP, "").build());
      return;
    }
    book.season(crop.year())
        .add(count(crop, visit, bbch, on, InspectedPart.FEMALE, "-female").build());
    boolean inFlower = bbch >= 61 && bbch <= 69;
    if (inFlower) {
      book.season(crop.year()).add(shedding(crop, visit, bbch, on, sheddingShare, plants));
      book.season(crop.year())
          .add(count(crop, visit, bbch, on, InspectedPart.POLLEN_PARENT, "-pollen").build());
    }
  }

  /** Off-types and other plants; by area, or by plants where the rulebook counts so. */
  private static FieldInspection.Builder count(
      Crop crop, int visit, int bbch, LocalDate on, InspectedPart part, String suffix) {
    FieldInspection.Builder count = begun(crop, visit, bbch, on, part, suffix);
    Draw draw = Draw.of("off-types", crop.cropId(), visit + suffix);
    boolean strict = crop.hybrid().strict();
    boolean certified = crop.category() == Category.CERTIFIED;
    if (crop.hybrid().rulebookId().equals("US")) {
      count.setPlantsCounted(COUNTED_PLANTS).setOffTypePlants(draw.between(0, 1));
    } else {
      count
          .setAreaM2(COUNTED_AREA_M2)
          .setOffTypePlants(draw.between(0, strict ? 1 : certified ? 8 : 3));
    }
    return count
        .setOtherCerealPlants(strict ? 0 : draw.between(0, 1))
        .setHardToSeparatePlants(strict ? 0 : draw.between(0, 3))
        .setWildOatPlants(0)
        .setSmutPlants(strict ? 0 : draw.between(0, 1))
        .setErgotBodies(draw.between(0, 1));
  }

  private static FieldInspection shedding(
      Crop crop, int visit, int bbch, LocalDate on, double sheddingShare, int plants) {
    Draw draw = Draw.of("shedding", crop.cropId(), Integer.toString(visit));
    return begun(crop, visit, bbch, on, InspectedPart.FEMALE, "-shedding")
        .setPlantsCounted(plants)
        .setOffTypePlants(plants < COUNTED_PLANTS ? 0 : draw.between(0, 1))
        .setPlantsInReceptiveFlower((int) (plants * draw.between(0.7, 0.95, 2)))
        .setSheddingPlants(seen(plants, sheddingShare, draw))
        .build();
  }

  private static FieldInspection.Builder begun(
      Crop crop, int visit, int bbch, LocalDate on, InspectedPart part, String suffix) {
    Draw draw = Draw.of("inspector", crop.cropId());
    return FieldInspection.newBuilder()
        .setHeader(
            Heads.head(
                "inspection-%s-%d%s".formatted(crop.cropId(), visit, suffix),
                "inspector-0" + draw.between(1, 5),
                on,
                "inspection sheet %s/%d".formatted(crop.cropId(), visit)))
        .setCropId(crop.cropId())
        .setVisit(visit)
        .setBbchStage(bbch)
        .setPart(part);
  }

  private static void sterility(Book book, Crop crop, double sheddingShare) {
    Draw draw = Draw.of("sterility", crop.cropId());
    book.season(crop.year())
        .addByPhone(
            SterilityCheck.newBuilder()
                .setHeader(
                    Heads.head(
                        "sterility-" + crop.cropId(),
                        "phone-0" + draw.between(1, 5),
                        crop.on(6, 5).plusDays(draw.between(0, 3)),
                        "sterility sheet " + crop.cropId()))
                .setCropId(crop.cropId())
                .setPlantsExamined(EXAMINED_PLANTS)
                .setPlantsShedding(seen(EXAMINED_PLANTS, sheddingShare, draw))
                .setBaggedEars(BAGGED_EARS)
                .setBaggedEarsWithSeed(seen(BAGGED_EARS, sheddingShare, draw))
                .build());
  }

  private static int seen(int plants, double share, Draw draw) {
    return (int) Math.round(plants * share * draw.between(0.85, 1.15, 3));
  }
}
