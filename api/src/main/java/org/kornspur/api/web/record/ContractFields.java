package org.kornspur.api.web.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToIntFunction;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.api.text.FieldDocs;
import org.kornspur.api.text.FieldLabels;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.Field.Kind;
import org.kornspur.api.web.form.Field.Option;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.FormView.Section;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.FieldLimits;

/**
 * The fields of a form, from the schema of its type and in its order: names, help, units, limits
 * and choices all stand in the contract or beside it. A list of records is a section of rows.
 */
final class ContractFields {
  static final String SOURCE_DOCUMENT = "header.sourceDocument";
  static final String REASON = "header.correction.reason";

  /** What the server writes, or the form asks for by itself. */
  private static final String HEADER = "header";

  private final FieldLabels labels;
  private final FieldDocs docs;
  private final DomainTerms terms;
  private final PageTexts texts;

  /**
   * @param texts of these forms
   */
  ContractFields(Language language, PageTexts texts) {
    this.labels = FieldLabels.in(language);
    this.docs = new FieldDocs(language, texts.of("leftEmpty"));
    this.terms = DomainTerms.in(language);
    this.texts = texts;
  }

  /** What a form says of itself: what kind of fact it makes. */
  String explained(ContractForm form) {
    return docs.of(form.type().schema());
  }

  /**
   * An empty form, with an id that no fact has.
   *
   * @param corrects id of the fact that it corrects; empty of a new fact
   * @param rows how many rows of a list are filled in; there are never fewer than it must have
   */
  FormView<ContractForm> sheet(
      ContractForm form, Optional<String> corrects, ToIntFunction<String> rows) {
    List<Section> sections = new ArrayList<>();
    if (corrects.isPresent()) {
      sections.add(
          section(
              "reason",
              texts.of("sectionReason"),
              List.of(field(Correction.getClassSchema(), "reason", REASON))));
    }
    List<Field> together = new ArrayList<>();
    for (Schema.Field field : form.type().schema().getFields()) {
      Schema type = FieldLimits.branchOf(field.schema());
      if (field.name().equals(HEADER)) {
        continue;
      }
      if (isList(type)) {
        close(together, sections);
        sections.add(list(form.type().schema(), field, rows.applyAsInt(field.name())));
      } else {
        together.add(field(form.type().schema(), field.name(), field.name()));
      }
    }
    close(together, sections);
    Schema header = FactHeader.getClassSchema();
    sections.add(
        section(
            "record",
            texts.of("sectionRecord"),
            List.of(
                field(header, "happenedAt", FormParts.HAPPENED_AT),
                field(header, "sourceDocument", SOURCE_DOCUMENT).offering("last-sourceDocument"))));
    return FormView.of(form, corrects, Map.of(), sections);
  }

  /** Whether a form has a field for a lot, or one for a crop. */
  boolean names(ContractForm form, Subject.Kind kind) {
    return sheet(form, Optional.empty(), list -> 1)
        .fields()
        .anyMatch(field -> field.list().equals("known-" + kind.word()));
  }

  /** How many rows of a list a form shows where so many are filled in. */
  int rows(ContractForm form, String list, int filled) {
    return Math.max(filled, fewest(form.type().schema().getField(list)));
  }

  private void close(List<Field> together, List<Section> sections) {
    if (!together.isEmpty()) {
      sections.add(
          section("facts-" + sections.size(), texts.of("sectionFacts"), List.copyOf(together)));
      together.clear();
    }
  }

  private static Section section(String name, String legend, List<Field> fields) {
    return new Section(name, legend, false, fields);
  }

  private Section list(Schema record, Schema.Field list, int filled) {
    Schema element = FieldLimits.branchOf(list.schema()).getElementType();
    List<Field> fields = new ArrayList<>();
    for (int row = 0; row < Math.max(filled, fewest(list)); row++) {
      for (Schema.Field field : element.getFields()) {
        fields.add(
            field(element, field.name(), list.name() + "[" + row + "]." + field.name())
                .withoutHint());
      }
    }
    return new Section(
        list.name(),
        labels.of(record, list.name()),
        false,
        List.copyOf(fields),
        element.getFields().size(),
        docs.of(list));
  }

  private static int fewest(Schema.Field list) {
    Object least = FieldLimits.branchOf(list.schema()).getObjectProp("minItems");
    return least instanceof Number min ? min.intValue() : 0;
  }

  private static boolean isList(Schema type) {
    return type.getType() == Schema.Type.ARRAY
        && type.getElementType().getType() == Schema.Type.RECORD
        && !isCorner(type.getElementType());
  }

  private static boolean isCorner(Schema type) {
    return type.getFullName().equals(GeoPoint.getClassSchema().getFullName());
  }

  private Field field(Schema record, String name, String path) {
    Schema.Field field = record.getField(name);
    Schema type = FieldLimits.branchOf(field.schema());
    Field made =
        Field.of(
            path,
            kind(type),
            labels.of(record, name),
            docs.of(field),
            field.schema().getType() != Schema.Type.UNION && !field.hasDefaultValue());
    return switch (made.kind()) {
      case WHOLE, DECIMAL -> made.within(record, name);
      case CHOICE ->
          made.with(
              type.getEnumSymbols().stream()
                  .map(symbol -> new Option(symbol, terms.constant(type.getName(), symbol)))
                  .toList());
      case CORNERS -> made.hinted(texts.of("cornersHint"));
      case LINES -> made.hinted((made.hint() + " " + texts.of("linesHint")).strip());
      case TEXT -> made.offering(KnownIds.listOf(type, name));
      case TIME, DAY, FLAG -> made;
    };
  }

  private static Kind kind(Schema type) {
    return switch (type.getType()) {
      case STRING -> Kind.TEXT;
      case ENUM -> Kind.CHOICE;
      case BOOLEAN -> Kind.FLAG;
      case DOUBLE -> Kind.DECIMAL;
      case LONG -> Kind.TIME;
      case INT -> type.getLogicalType() instanceof LogicalTypes.Date ? Kind.DAY : Kind.WHOLE;
      case ARRAY ->
          type.getElementType().getType() == Schema.Type.RECORD ? Kind.CORNERS : Kind.LINES;
      default -> throw new IllegalArgumentException("No field can hold a " + type.getType());
    };
  }
}
