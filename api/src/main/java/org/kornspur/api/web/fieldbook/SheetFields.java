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
  private static final Map<Integer, Function<BookMessages, String>> STAGES =
      Map.of(
          51, BookMessages::bbch51,
          55, BookMessages::bbch55,
          59, BookMessages::bbch59,
          61, BookMessages::bbch61,
          65, BookMessages::bbch65,
          69, BookMessages::bbch69,
          75, BookMessages::bbch75,
          89, BookMessages::bbch89);

  private final FieldCrop crop;
  private final BookMessages texts;
  private final LocalDateTime now;

  SheetFields(FieldCrop crop, BookMessages texts, ZoneId zone, Clock clock) {
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
            texts.sectionRecord(),
            false,
            List.of(
                Field.of("header.happenedAt", Kind.TIME, texts.happenedAt(), "", true)
                    .starting(now.toString()),
                Field.of(
                        "header.sourceDocument",
                        Kind.TEXT,
                        texts.sourceDocument(),
                        texts.sourceDocumentHint(),
                        true)
                    .starting(texts.sourceDocumentPhone()))));
    return List.copyOf(sections);
  }

  private List<Section> inspection() {
    Schema schema = FieldInspection.getClassSchema();
    InspectedPart usual = crop.hasFemale() ? InspectedPart.FEMALE : InspectedPart.WHOLE_CROP;
    return List.of(
        new Section(
            "visit",
            texts.sectionVisit(),
            false,
            List.of(
                whole(schema, "visit", texts.visit(), texts.visitHint(crop.visits().size()), true)
                    .starting(String.valueOf(crop.nextVisit())),
                whole(schema, "bbchStage", texts.bbchStage(), texts.bbchStageHint(), true)
                    .with(
                        STAGES.entrySet().stream()
                            .sorted(Map.Entry.comparingByKey())
                            .map(
                                stage ->
                                    new Option(
                                        stage.getKey().toString(), stage.getValue().apply(texts)))
                            .toList()),
                Field.of("part", Kind.CHOICE, texts.part(), "", true)
                    .with(options(InspectedPart.values(), texts::partOf))
                    .starting(usual.name()))),
        new Section(
            "counts",
            texts.sectionCounts(),
            false,
            List.of(
                number(schema, "areaM2", Kind.DECIMAL, texts.areaM2(), texts.areaM2Hint(), false),
                whole(schema, "plantsCounted", texts.plantsCounted(), texts.plantsHint(), false),
                whole(schema, "offTypePlants", texts.offTypePlants(), "", true),
                whole(
                    schema,
                    "plantsInReceptiveFlower",
                    texts.plantsInReceptiveFlower(),
                    texts.receptiveHint(),
                    false),
                whole(
                    schema,
                    "sheddingPlants",
                    texts.sheddingPlants(),
                    texts.sheddingHint(),
                    false))),
        new Section(
            "others",
            texts.sectionOthers(),
            true,
            List.of(
                whole(schema, "otherCerealPlants", texts.otherCerealPlants(), "", false),
                whole(schema, "hardToSeparatePlants", texts.hardToSeparatePlants(), "", false),
                whole(schema, "wildOatPlants", texts.wildOatPlants(), "", false),
                whole(schema, "smutPlants", texts.smutPlants(), "", false),
                whole(schema, "ergotBodies", texts.ergotBodies(), "", false))));
  }

  private List<Section> sterilityCheck() {
    Schema schema = SterilityCheck.getClassSchema();
    return List.of(
        new Section(
            "counts",
            texts.sectionCounts(),
            false,
            List.of(
                whole(schema, "plantsExamined", texts.plantsExamined(), "", true),
                whole(schema, "plantsShedding", texts.plantsShedding(), "", true))),
        new Section(
            "bags",
            texts.sectionBags(),
            true,
            List.of(
                whole(schema, "baggedEars", texts.baggedEars(), texts.baggedHint(), false),
                whole(schema, "baggedEarsWithSeed", texts.baggedEarsWithSeed(), "", false))));
  }

  private List<Section> pollenSource() {
    return List.of(
        new Section(
            "source",
            texts.sectionSource(),
            false,
            List.of(
                id("sourceId", texts.sourceId(), texts.sourceIdHint()),
                Field.of("kind", Kind.CHOICE, texts.sourceKind(), "", true)
                    .with(options(PollenSourceKind.values(), texts::kindOf)),
                Field.of("cropYear", Kind.WHOLE, texts.sourceYear(), "", true)
                    .starting(String.valueOf(crop.cropYear())),
                Field.of("firstSeenOn", Kind.DAY, texts.firstSeenOn(), "", true)
                    .starting(now.toLocalDate().toString()),
                Field.of("endedOn", Kind.DAY, texts.endedOn(), texts.endedOnHint(), false),
                Field.of("outline", Kind.CORNERS, texts.outline(), texts.outlineHint(), true))));
  }

  private List<Section> sowing() {
    Schema mass = LotMass.getClassSchema();
    List<Section> sections = new ArrayList<>();
    List<Option> lots =
        crop.lots().stream()
            .map(lot -> new Option(lot.id(), texts.lotLeft(lot.seed(), lot.left())))
            .toList();
    IntStream.range(0, SOWN_LOTS)
        .forEach(
            at ->
                sections.add(
                    new Section(
                        "sown-" + at,
                        texts.sectionSown(at + 1),
                        at > 0,
                        List.of(
                            Field.of(
                                    "sown[%d].lotId".formatted(at),
                                    Kind.TEXT,
                                    texts.sownLot(),
                                    texts.sownLotHint(),
                                    at == 0)
                                .with(lots),
                            Field.of(
                                    "sown[%d].massKg".formatted(at),
                                    Kind.DECIMAL,
                                    texts.sownMass(),
                                    "",
                                    at == 0)
                                .within(mass.getField("massKg").schema())))));
    sections.add(
        new Section(
            "area",
            texts.sectionArea(),
            false,
            List.of(
                number(
                    Sowing.getClassSchema(), "areaHa", Kind.DECIMAL, texts.areaHa(), "", true))));
    return sections;
  }

  private List<Section> harvest() {
    List<Field> fields = new ArrayList<>();
    fields.add(id("lotId", texts.harvestLot(), texts.harvestLotHint()));
    fields.add(
        number(
            Harvest.getClassSchema(),
            "massKg",
            Kind.DECIMAL,
            texts.harvestMass(),
            texts.harvestMassHint(),
            true));
    if (crop.role() == CropRole.STERILE_FEMALE) {
      fields.add(
          Field.of(
              "pollenParentRemoved",
              Kind.FLAG,
              texts.pollenParentRemoved(),
              texts.pollenParentRemovedHint(),
              false));
    }
    return List.of(new Section("harvest", texts.sectionHarvest(), false, fields));
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
