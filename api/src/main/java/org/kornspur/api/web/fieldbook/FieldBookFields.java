package org.kornspur.api.web.fieldbook;

import java.time.Clock;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.Schema;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.Field.Kind;
import org.kornspur.api.web.form.Field.Option;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.FormView.Section;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.Sowing;
import org.kornspur.contract.SterilityCheck;

/** The fields of each form, empty but for what is known beforehand. */
final class FieldBookFields {
  private static final int SOWN_LOTS = 4;
  private static final List<Integer> BBCH_STAGES = List.of(51, 55, 59, 61, 65, 69, 75, 89);

  private final FieldCrop crop;
  private final PageTexts texts;
  private final FormParts parts;
  private final LocalDateTime now;

  FieldBookFields(FieldCrop crop, PageTexts texts, ZoneId zone, Clock clock) {
    this.crop = crop;
    this.texts = texts;
    this.parts = new FormParts(texts);
    this.now = LocalDateTime.ofInstant(clock.instant(), zone).truncatedTo(ChronoUnit.MINUTES);
  }

  /** A new form, with an id that no fact has. */
  FormView<FieldBookForm> sheet(FieldBookForm form) {
    Map<String, String> fixed =
        form == FieldBookForm.POLLEN_SOURCE ? Map.of() : Map.of("cropId", crop.id());
    List<Section> sections =
        new ArrayList<>(
            switch (form) {
              case INSPECTION -> inspection();
              case STERILITY_CHECK -> sterilityCheck();
              case POLLEN_SOURCE -> List.of(pollenSource());
              case SOWING -> sowing();
              case HARVEST -> List.of(harvest());
            });
    sections.add(parts.record(now.toString(), texts.of("sourceDocumentPhone")));
    return FormView.of(form, Optional.empty(), fixed, sections);
  }

  private List<Section> inspection() {
    Schema visit = FieldInspection.getClassSchema();
    InspectedPart usual = crop.hasFemale() ? InspectedPart.FEMALE : InspectedPart.WHOLE_CROP;
    return List.of(
        parts.section(
            "visit",
            parts
                .whole(visit, "visit", true, crop.visits().size())
                .starting(String.valueOf(crop.nextVisit())),
            parts
                .whole(visit, "bbchStage", true)
                .with(
                    BBCH_STAGES.stream()
                        .map(stage -> new Option(stage.toString(), texts.of("bbch" + stage)))
                        .toList()),
            parts
                .field("part", Kind.CHOICE, true)
                .with(parts.options(InspectedPart.values(), "partOf"))
                .starting(usual.name())),
        parts.section(
            "counts",
            parts.decimal(visit, "areaM2", false),
            parts.whole(visit, "plantsCounted", false),
            parts.whole(visit, "offTypePlants", true),
            parts.whole(visit, "plantsInReceptiveFlower", false),
            parts.whole(visit, "sheddingPlants", false)),
        parts.folded(
            "others",
            parts.whole(visit, "otherCerealPlants", false),
            parts.whole(visit, "hardToSeparatePlants", false),
            parts.whole(visit, "wildOatPlants", false),
            parts.whole(visit, "smutPlants", false),
            parts.whole(visit, "ergotBodies", false)));
  }

  private List<Section> sterilityCheck() {
    Schema check = SterilityCheck.getClassSchema();
    return List.of(
        parts.section(
            "counts",
            parts.whole(check, "plantsExamined", true),
            parts.whole(check, "plantsShedding", true)),
        parts.folded(
            "bags",
            parts.whole(check, "baggedEars", false),
            parts.whole(check, "baggedEarsWithSeed", false)));
  }

  private Section pollenSource() {
    return parts.section(
        "source",
        parts.field("sourceId", Kind.TEXT, true),
        parts
            .field("kind", "sourceKind", Kind.CHOICE, true)
            .with(parts.options(PollenSourceKind.values(), "kindOf")),
        parts
            .field("cropYear", "sourceYear", Kind.WHOLE, true)
            .starting(String.valueOf(crop.declared().getCropYear())),
        parts.field("firstSeenOn", Kind.DAY, true).starting(now.toLocalDate().toString()),
        parts.field("endedOn", Kind.DAY, false),
        parts.field("outline", Kind.CORNERS, true));
  }

  private List<Section> sowing() {
    List<Option> lots =
        crop.lots().stream()
            .map(lot -> new Option(lot.id(), texts.of("lotLeft", lot.seed(), lot.left())))
            .toList();
    List<Section> sections = new ArrayList<>();
    for (int at = 0; at < SOWN_LOTS; at++) {
      String sown = "sown[%d].".formatted(at);
      sections.add(
          parts.numbered(
              "sown",
              at,
              at > 0,
              parts.field(sown + "lotId", "sownLot", Kind.TEXT, at == 0).with(lots),
              parts
                  .field(sown + "massKg", "sownMass", Kind.DECIMAL, at == 0)
                  .within(LotMass.getClassSchema(), "massKg")));
    }
    sections.add(parts.section("area", parts.decimal(Sowing.getClassSchema(), "areaHa", true)));
    return sections;
  }

  private Section harvest() {
    List<Field> fields = new ArrayList<>();
    fields.add(parts.field("lotId", "harvestLot", Kind.TEXT, true));
    fields.add(
        parts
            .field("massKg", "harvestMass", Kind.DECIMAL, true)
            .within(Harvest.getClassSchema(), "massKg"));
    if (crop.declared().getRole() == CropRole.STERILE_FEMALE) {
      fields.add(parts.field("pollenParentRemoved", Kind.FLAG, false));
    }
    return parts.section("harvest", fields.toArray(Field[]::new));
  }
}
