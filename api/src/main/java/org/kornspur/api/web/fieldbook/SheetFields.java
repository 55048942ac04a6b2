package org.kornspur.api.web.fieldbook;

import java.time.Clock;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.apache.avro.Schema;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.fieldbook.Field.Kind;
import org.kornspur.api.web.fieldbook.Field.Option;
import org.kornspur.api.web.fieldbook.Sheet.Section;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;

/** The fields of each form, empty but for what is known beforehand. */
final class SheetFields {
  private static final int SOWN_LOTS = 4;
  private static final List<Integer> BBCH_STAGES = List.of(51, 55, 59, 61, 65, 69, 75, 89);

  private final FieldCrop crop;
  private final PageTexts texts;
  private final LocalDateTime now;

  SheetFields(FieldCrop crop, PageTexts texts, ZoneId zone, Clock clock) {
    this.crop = crop;
    this.texts = texts;
    this.now = LocalDateTime.ofInstant(clock.instant(), zone).truncatedTo(ChronoUnit.MINUTES);
  }

  /** A new form, with an id that no fact has. */
  Sheet<BookForm> sheet(BookForm form) {
    Map<String, String> fixed =
        form == BookForm.POLLEN_SOURCE ? Map.of() : Map.of("cropId", crop.id());
    return Sheet.of(form, fixed, sections(form));
  }

  private List<Section> sections(BookForm form) {
    List<Section> sections =
        new ArrayList<>(
            switch (form) {
              case INSPECTION -> inspection();
              case STERILITY_CHECK -> sterilityCheck();
              case POLLEN_SOURCE -> pollenSource();
              case SOWING -> sowing();
              case HARVEST -> harvest();
            });
    sections.add(
        new Section(
            "record",
            texts.of("sectionRecord"),
            false,
            List.of(
                Field.of("header.happenedAt", Kind.TIME, texts.of("happenedAt"), "", true)
                    .starting(now.toString()),
                Field.of(
                        "header.sourceDocument",
                        Kind.TEXT,
                        texts.of("sourceDocument"),
                        texts.of("sourceDocumentHint"),
                        true)
                    .starting(texts.of("sourceDocumentPhone")))));
    return List.copyOf(sections);
  }

  private List<Section> inspection() {
    Schema schema = FieldInspection.getClassSchema();
    InspectedPart usual = crop.hasFemale() ? InspectedPart.FEMALE : InspectedPart.WHOLE_CROP;
    return List.of(
        new Section(
            "visit",
            texts.of("sectionVisit"),
            false,
            List.of(
                whole(
                        schema,
                        "visit",
                        texts.of("visit"),
                        texts.of("visitHint", crop.visits().size()),
                        true)
                    .starting(String.valueOf(crop.nextVisit())),
                whole(schema, "bbchStage", texts.of("bbchStage"), texts.of("bbchStageHint"), true)
                    .with(
                        BBCH_STAGES.stream()
                            .map(stage -> new Option(stage.toString(), texts.of("bbch" + stage)))
                            .toList()),
                Field.of("part", Kind.CHOICE, texts.of("part"), "", true)
                    .with(options(InspectedPart.values(), value -> texts.of("partOf", value)))
                    .starting(usual.name()))),
        new Section(
            "counts",
            texts.of("sectionCounts"),
            false,
            List.of(
                number(
                    schema,
                    "areaM2",
                    Kind.DECIMAL,
                    texts.of("areaM2"),
                    texts.of("areaM2Hint"),
                    false),
                whole(
                    schema,
                    "plantsCounted",
                    texts.of("plantsCounted"),
                    texts.of("plantsHint"),
                    false),
                whole(schema, "offTypePlants", texts.of("offTypePlants"), "", true),
                whole(
                    schema,
                    "plantsInReceptiveFlower",
                    texts.of("plantsInReceptiveFlower"),
                    texts.of("receptiveHint"),
                    false),
                whole(
                    schema,
                    "sheddingPlants",
                    texts.of("sheddingPlants"),
                    texts.of("sheddingHint"),
                    false))),
        new Section(
            "others",
            texts.of("sectionOthers"),
            true,
            List.of(
                whole(schema, "otherCerealPlants", texts.of("otherCerealPlants"), "", false),
                whole(schema, "hardToSeparatePlants", texts.of("hardToSeparatePlants"), "", false),
                whole(schema, "wildOatPlants", texts.of("wildOatPlants"), "", false),
                whole(schema, "smutPlants", texts.of("smutPlants"), "", false),
                whole(schema, "ergotBodies", texts.of("ergotBodies"), "", false))));
  }

  private List<Section> sterilityCheck() {
    Schema schema = SterilityCheck.getClassSchema();
    return List.of(
        new Section(
            "counts",
            texts.of("sectionCounts"),
            false,
            List.of(
                whole(schema, "plantsExamined", texts.of("plantsExamined"), "", true),
                whole(schema, "plantsShedding", texts.of("plantsShedding"), "", true))),
        new Section(
            "bags",
            texts.of("sectionBags"),
            true,
            List.of(
                whole(schema, "baggedEars", texts.of("baggedEars"), texts.of("baggedHint"), false),
                whole(schema, "baggedEarsWithSeed", texts.of("baggedEarsWithSeed"), "", false))));
  }

  private List<Section> pollenSource() {
    return List.of(
        new Section(
            "source",
            texts.of("sectionSource"),
            false,
            List.of(
                id("sourceId", texts.of("sourceId"), texts.of("sourceIdHint")),
                Field.of("kind", Kind.CHOICE, texts.of("sourceKind"), "", true)
                    .with(options(PollenSourceKind.values(), value -> texts.of("kindOf", value))),
                Field.of("cropYear", Kind.WHOLE, texts.of("sourceYear"), "", true)
                    .starting(String.valueOf(crop.cropYear())),
                Field.of("firstSeenOn", Kind.DAY, texts.of("firstSeenOn"), "", true)
                    .starting(now.toLocalDate().toString()),
                Field.of("endedOn", Kind.DAY, texts.of("endedOn"), texts.of("endedOnHint"), false),
                Field.of(
                    "outline", Kind.CORNERS, texts.of("outline"), texts.of("outlineHint"), true))));
  }

  private List<Section> sowing() {
    Schema mass = LotMass.getClassSchema();
    List<Section> sections = new ArrayList<>();
    List<Option> lots =
        crop.lots().stream()
            .map(lot -> new Option(lot.id(), texts.of("lotLeft", lot.seed(), lot.left())))
            .toList();
    IntStream.range(0, SOWN_LOTS)
        .forEach(
            at ->
                sections.add(
                    new Section(
                        "sown-" + at,
                        texts.of("sectionSown", at + 1),
                        at > 0,
                        List.of(
                            Field.of(
                                    "sown[%d].lotId".formatted(at),
                                    Kind.TEXT,
                                    texts.of("sownLot"),
                                    texts.of("sownLotHint"),
                                    at == 0)
                                .with(lots),
                            Field.of(
                                    "sown[%d].massKg".formatted(at),
                                    Kind.DECIMAL,
                                    texts.of("sownMass"),
                                    "",
                                    at == 0)
                                .within(mass.getField("massKg").schema())))));
    sections.add(
        new Section(
            "area",
            texts.of("sectionArea"),
            false,
            List.of(
                number(
                    Sowing.getClassSchema(),
                    "areaHa",
                    Kind.DECIMAL,
                    texts.of("areaHa"),
                    "",
                    true))));
    return sections;
  }

  private List<Section> harvest() {
    List<Field> fields = new ArrayList<>();
    fields.add(id("lotId", texts.of("harvestLot"), texts.of("harvestLotHint")));
    fields.add(
        number(
            Harvest.getClassSchema(),
            "massKg",
            Kind.DECIMAL,
            texts.of("harvestMass"),
            texts.of("harvestMassHint"),
            true));
    if (crop.role() == CropRole.STERILE_FEMALE) {
      fields.add(
          Field.of(
              "pollenParentRemoved",
              Kind.FLAG,
              texts.of("pollenParentRemoved"),
              texts.of("pollenParentRemovedHint"),
              false));
    }
    return List.of(new Section("harvest", texts.of("sectionHarvest"), false, fields));
  }

  private static Field id(String name, String label, String hint) {
    return Field.of(name, Kind.TEXT, label, hint, true);
  }

  private static Field whole(
      Schema record, String name, String label, String hint, boolean required) {
    return number(record, name, Kind.WHOLE, label, hint, required);
  }

  private static Field number(
      Schema record, String name, Kind kind, String label, String hint, boolean required) {
    return Field.of(name, kind, label, hint, required).within(record.getField(name).schema());
  }

  private static <E extends Enum<E>> List<Option> options(E[] values, Function<E, String> label) {
    return Arrays.stream(values)
        .map(value -> new Option(value.name(), label.apply(value)))
        .toList();
  }
}
