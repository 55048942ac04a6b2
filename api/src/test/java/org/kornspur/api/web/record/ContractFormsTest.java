package org.kornspur.api.web.record;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.api.export.DemoEntries;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.Field.Kind;
import org.kornspur.api.web.form.FormReader;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.FormView.Section;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.dossier.Entry;

/** Every form, held against the contract and against the facts of the demo. */
class ContractFormsTest {
  /** One hour of each autumn is gone through twice there. */
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

  static Stream<ContractForm> forms() {
    return ContractForm.ALL.stream();
  }

  @Test
  void everyFactOfTheDemoGoesThroughItsFormAndIsTheSame() {
    Set<FactType> seen = EnumSet.noneOf(FactType.class);
    List<Entry> all = DemoEntries.all();
    for (Entry entry : all) {
      SpecificRecord fact = entry.fact();
      if (FactType.of(fact).isAct()) {
        continue;
      }
      for (Language language : Language.values()) {
        assertThat(throughItsForm(fact, language)).isEqualTo(new ReadResult.Fact(fact));
      }
      seen.add(FactType.of(fact));
    }

    assertThat(all).hasSizeGreaterThan(2_800);
    assertThat(seen).containsExactlyInAnyOrderElementsOf(types());
  }

  private static List<FactType> types() {
    return ContractForm.ALL.stream().map(ContractForm::type).toList();
  }

  /** What the form of a fact posts is read again, with who and when from the fact. */
  private static ReadResult throughItsForm(SpecificRecord fact, Language language) {
    FactHeader header = FactType.headerOf(fact);
    ObjectNode json = AvroJson.write(fact);
    ContractForm form = new ContractForm(FactType.of(fact));
    Optional<String> corrects =
        Optional.ofNullable(header.getCorrection()).map(correction -> correction.getSupersedes());
    FormValues values = new FormValues(new LocalFormat(language, BERLIN));
    FormView<ContractForm> filled =
        values.filled(
            fields(language).sheet(form, corrects, list -> FormValues.rows(json, list)), json);
    MultivaluedMap<String, String> posted = new MultivaluedHashMap<>();
    posted.putSingle(FormReader.FACT_ID, header.getFactId());
    filled.fields().forEach(field -> posted.putSingle(field.name(), field.value()));
    // an empty row in front, as somebody leaves it
    filled.sections().stream()
        .filter(Section::isList)
        .flatMap(section -> section.fields().stream())
        .forEach(field -> move(field.name(), posted));

    MultivaluedMap<String, String> kept = FormValues.withoutEmptyRows(posted);
    FormReader reader =
        new FormReader(kept, new LocalFormat(language, BERLIN), PageTexts.in(language, "book"));
    FormView<ContractForm> empty =
        fields(language).sheet(form, corrects, list -> FormValues.rows(kept, list));
    ObjectNode made = reader.fact(empty, header.getRecordedBy(), header.getRecordedAt());
    values.keepMoment(made, reader, json);
    assertThat(reader.faults()).as(json.toString()).isEmpty();
    return FactParser.accept(made);
  }

  private static void move(String name, MultivaluedMap<String, String> posted) {
    int row = Integer.parseInt(name.replaceAll(".*\\[(\\d+)].*", "$1"));
    String value = posted.getFirst(name);
    posted.putSingle(name.replaceAll("\\[\\d+]", "[" + (row + 1_000) + "]"), value);
    posted.putSingle(name, "");
  }

  private static ContractFields fields(Language language) {
    return new ContractFields(language, PageTexts.in(language, "record"));
  }

  private static FormView<ContractForm> oneRowEach(ContractForm form, Language language) {
    return fields(language).sheet(form, Optional.empty(), list -> 1);
  }

  @ParameterizedTest
  @MethodSource("forms")
  void aFormHasEveryFieldOfTheContractThatThePersonWritesOnce(ContractForm form) {
    Set<String> expected = new HashSet<>(Set.of("header.happenedAt", "header.sourceDocument"));
    for (Schema.Field field : form.type().schema().getFields()) {
      Schema type = FieldLimits.branchOf(field.schema());
      if (field.name().equals("header")) {
        continue;
      }
      boolean isRows =
          type.getType() == Schema.Type.ARRAY
              && type.getElementType().getType() == Schema.Type.RECORD
              && !field.name().equals("outline");
      if (isRows) {
        type.getElementType()
            .getFields()
            .forEach(part -> expected.add(field.name() + "[0]." + part.name()));
      } else {
        expected.add(field.name());
      }
    }
    List<Field> fields = oneRowEach(form, Language.ENGLISH).fields().toList();

    assertThat(fields.stream().map(Field::name).filter(name -> !name.contains("[1]")))
        .containsExactlyInAnyOrderElementsOf(expected);
    assertThat(fields)
        .filteredOn(field -> field.kind() == Kind.WHOLE || field.kind() == Kind.DECIMAL)
        .as("every number of the contract has limits")
        .allSatisfy(field -> assertThat(field.least()).isPresent());
  }

  /** A name without a word for it would show as its constant. */
  @ParameterizedTest
  @EnumSource(Language.class)
  void everyChoiceHasAWord(Language language) {
    for (ContractForm form : ContractForm.ALL) {
      assertThat(fields(language).explained(form)).as(form.path()).isNotBlank();
      assertThat(oneRowEach(form, language).fields())
          .allSatisfy(
              field -> {
                assertThat(field.label()).isNotBlank();
                assertThat(field.hint()).doesNotContainPattern("\\b[Nn]ull\\b");
                if (field.kind() == Kind.CHOICE) {
                  assertThat(field.options())
                      .isNotEmpty()
                      .allSatisfy(
                          option -> assertThat(option.label()).isNotEqualTo(option.value()));
                }
              });
    }
  }

  /** Who reads German finds no English help. */
  @Test
  void helpIsWrittenInGermanToo() {
    for (ContractForm form : ContractForm.ALL) {
      Map<String, String> english = hints(form, Language.ENGLISH);
      hints(form, Language.GERMAN)
          .forEach(
              (name, hint) ->
                  assertThat(hint)
                      .as(form.path() + " " + name)
                      .isNotEqualTo(hint.isEmpty() ? null : english.get(name)));
    }
  }

  private static Map<String, String> hints(ContractForm form, Language language) {
    Map<String, String> hints = new java.util.HashMap<>();
    FormView<ContractForm> sheet = oneRowEach(form, language);
    sheet.fields().forEach(field -> hints.put(field.name(), field.hint()));
    sheet.sections().forEach(section -> hints.put("section " + section.name(), section.hint()));
    return hints;
  }

  @Test
  void whatIsLeftEmptyIsAskedForByNameAndAnEmptyRowIsNone() {
    ContractForm form = new ContractForm(FactType.CONDITIONING);
    MultivaluedMap<String, String> posted = new MultivaluedHashMap<>();
    posted.putSingle("inputs[0].lotId", " ");
    posted.putSingle("inputs[0].massKg", "");
    posted.putSingle("inputs[3].lotId", "L1");
    posted.putSingle("inputs[3].massKg", "12,5");
    MultivaluedMap<String, String> kept = FormValues.withoutEmptyRows(posted);
    FormReader reader =
        new FormReader(
            kept, new LocalFormat(Language.GERMAN, BERLIN), PageTexts.in(Language.GERMAN, "book"));
    FormView<ContractForm> sheet =
        fields(Language.GERMAN).sheet(form, Optional.empty(), list -> FormValues.rows(kept, list));

    ObjectNode fact = reader.fact(sheet, "p1", java.time.Instant.EPOCH);

    assertThat(fact.at("/inputs").toString()).isEqualTo("[{\"lotId\":\"L1\",\"massKg\":12.5}]");
    assertThat(reader.faults().keySet())
        .contains("outputs[0].lotId", "outputs[0].massKg", "screeningsKg", "header.happenedAt")
        .doesNotContain("treatment", "dryingLossKg");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "GERMAN | 1.250 | 1250 oder 1,250",
        "ENGLISH | 1,250 | 1250 or 1.250",
      })
  void aMassThatCanBeReadInTwoWaysIsRefusedWithWhatToWrite(
      Language language, String typed, String say) {
    FormReader reader = reading(FactType.HARVEST, Map.of("massKg", typed), language);

    assertThat(reader.faults().get("massKg"))
        .singleElement()
        .satisfies(fault -> assertThat(fault.text()).contains(typed, say));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {"GERMAN | 1.000", "GERMAN | 1,000", "ENGLISH | 1.000", "ENGLISH | 1,000"})
  void aThousandPlantsAreNotOne(Language language, String typed) {
    FormReader reader =
        reading(FactType.FIELD_INSPECTION, Map.of("plantsCounted", typed), language);

    assertThat(reader.faults().get("plantsCounted"))
        .singleElement()
        .satisfies(fault -> assertThat(fault.text()).contains(typed, "1000"));
  }

  private static FormReader reading(FactType type, Map<String, String> typed, Language language) {
    MultivaluedMap<String, String> posted = new MultivaluedHashMap<>();
    typed.forEach(posted::putSingle);
    FormReader reader =
        new FormReader(posted, new LocalFormat(language, BERLIN), PageTexts.in(language, "book"));
    reader.fact(oneRowEach(new ContractForm(type), language), "p1", java.time.Instant.EPOCH);
    return reader;
  }
}
