package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.SterilityCheck;

/** Trouble with the files themselves: one that comes twice, and broken ones. */
final class FileStories {
  static final String DUPLICATE = "07-duplicate-file";
  static final String BROKEN = "08-broken-files";

  private final Book book;
  private final Book stories;
  private final Holding holding;

  FileStories(Book book, Book stories, Holding holding) {
    this.book = book;
    this.stories = stories;
    this.holding = holding;
  }

  List<Story> tell() {
    return List.of(duplicate(), broken());
  }

  private Story duplicate() {
    Book pages = stories.in(DUPLICATE);
    List<SpecificRecord> harvests = book.factsIn("2025/Harvest.csv");
    String rawLot = ((Harvest) harvests.get(0)).getLotId();
    pages.addText("Harvest-2025-again.csv", FactFiles.csv(harvests));
    pages.addText(
        "GerminationTest-2025-again.csv", FactFiles.csv(book.factsIn("2025/GerminationTest.csv")));
    return new Story(
        DUPLICATE,
        "A duplicate file",
        "The harvests and germination tests of 2025 come a second time, with the same fact ids.",
        Story.looks().fit("lot:" + rawLot, "lot:" + rawLot.replaceFirst("^R", "L")).list(),
        "Nothing changes: each fact counts once, and each mass is there once.");
  }

  private Story broken() {
    Book pages = stories.in(BROKEN);
    Crop crop = Crop.f1("C26-S08", holding.fields.small(2026), DemoHybrid.numbered(2), 2026);
    holding.grow(pages, crop, 2025, Inspections.CLEAN);
    SeedLot raw = holding.growing.harvest(pages, crop).get(0);
    List<SeedLot> lots = holding.plant.clean(pages, raw, List.of("L26-S08A", "L26-S08B"));
    SeedLot good = lots.get(0);
    SeedLot other = lots.get(1);
    lots.forEach(lot -> Laboratory.allButGermination(pages, lot));
    pages.addText("GerminationTest-broken.csv", impossibleGermination(good, other));
    pages.addText("LotSplit-broken.csv", impossibleMass(good, other));
    pages.addText("FieldInspection-broken.csv", unknownPart(crop));
    pages.addText("MoistureTest-broken.csv", missingColumn(good, other));
    pages.addText("phone-broken.ndjson", garbled(crop));
    return new Story(
        BROKEN,
        "Broken files",
        "Line 3 of GerminationTest-broken.csv has 104 seedlings of 100 seeds; line 3 of"
            + " LotSplit-broken.csv a part of -5 kg; line 3 of FieldInspection-broken.csv the part"
            + " FEMAIL, and line 4 BBCH stage 140; MoistureTest-broken.csv has no column lotId;"
            + " in phone-broken.ndjson line 2 is cut off and line 3 is of no known type.",
        Story.looks().fit("crop:C26-S08", "lot:L26-S08A").owed("lot:L26-S08B").list(),
        "Eight lines refused, each with field, value, limit and remedy. The good lines count:"
            + " L26-S08A is fit; L26-S08B owes a germination test.");
  }

  private static String impossibleGermination(SeedLot good, SeedLot other) {
    String a = "germination-" + good.lotId();
    String b = "germination-" + other.lotId();
    return FactFiles.csv(
        List.of(
            Laboratory.germinationTest(good, a, Laboratory.hundreds(94, 95, 92, 93), null),
            Laboratory.germinationTest(other, b, Laboratory.hundreds(96, 104, 95, 97), null)));
  }

  private static String impossibleMass(SeedLot good, SeedLot other) {
    return FactFiles.csv(List.of(split(good, 2_000), split(other, -5)));
  }

  private static LotSplit split(SeedLot lot, double massKg) {
    return new LotSplit(
        Heads.head(
            "split-" + lot.lotId(),
            "plant-03",
            LocalDate.of(2026, 9, 2),
            "bagging order " + lot.lotId()),
        lot.lotId(),
        List.of(new LotMass(lot.lotId() + "-P1", massKg)));
  }

  private static String unknownPart(Crop crop) {
    List<SpecificRecord> visits = new ArrayList<>();
    for (int visit = 4; visit <= 6; visit++) {
      visits.add(
          FieldInspection.newBuilder()
              .setHeader(
                  Heads.head(
                      "inspection-%s-%d".formatted(crop.cropId(), visit),
                      "inspector-04",
                      crop.on(6, 12 + visit),
                      "inspection sheet %s/%d".formatted(crop.cropId(), visit)))
              .setCropId(crop.cropId())
              .setVisit(visit)
              .setBbchStage(visit == 6 ? 140 : 69)
              .setPart(visit == 5 ? InspectedPart.POLLEN_PARENT : InspectedPart.FEMALE)
              .setAreaM2(150.0)
              .setOffTypePlants(2)
              .build());
    }
    return FactFiles.csv(visits).replace(",POLLEN_PARENT,", ",FEMAIL,");
  }

  private static String missingColumn(SeedLot good, SeedLot other) {
    List<SpecificRecord> tests = new ArrayList<>();
    for (SeedLot lot : List.of(good, other)) {
      tests.add(
          new MoistureTest(
              Heads.head(
                  "moisture-" + lot.lotId() + "-again",
                  "lims-01",
                  LocalDate.of(2026, 9, 3),
                  "laboratory report S-" + lot.lotId()),
              lot.lotId(),
              "S-" + lot.lotId(),
              13.6,
              "ENT-LAB-ONE"));
    }
    return without("lotId", FactFiles.csv(tests));
  }

  /** The text of a CSV file, in which no cell is quoted, less one column. */
  private static String without(String column, String csv) {
    List<String> lines = csv.lines().toList();
    int dropped = Arrays.asList(lines.get(0).split(",", -1)).indexOf(column);
    return lines.stream()
        .map(
            line -> {
              List<String> cells = new ArrayList<>(Arrays.asList(line.split(",", -1)));
              cells.remove(dropped);
              return String.join(",", cells) + "\n";
            })
        .collect(Collectors.joining());
  }

  private static String garbled(Crop crop) {
    List<SpecificRecord> checks = new ArrayList<>();
    for (int i = 1; i <= 4; i++) {
      checks.add(
          SterilityCheck.newBuilder()
              .setHeader(
                  Heads.head(
                      "sterility-%s-again-%d".formatted(crop.cropId(), i),
                      "phone-03",
                      crop.on(6, 9 + i),
                      "sterility sheet " + crop.cropId()))
              .setCropId(crop.cropId())
              .setPlantsExamined(500)
              .setPlantsShedding(0)
              .build());
    }
    String[] lines = FactFiles.ndjson(checks).split("\n");
    lines[1] = lines[1].substring(0, lines[1].length() / 2);
    lines[2] = lines[2].replace("\"SterilityCheck\"", "\"SterilityChekc\"");
    return String.join("\n", lines) + "\n";
  }
}
