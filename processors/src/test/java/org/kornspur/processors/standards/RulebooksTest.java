package org.kornspur.processors.standards;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.fixture.CheckTable;
import org.kornspur.processors.standards.Rulebooks.RulebookFile;

class RulebooksTest {
  private static final LocalDate SUMMER_2024 = LocalDate.of(2024, 7, 1);
  private static final Rulebook EU = Rulebooks.bundled().find("EU").orElseThrow();
  private static final Rulebook DE = Rulebooks.bundled().find("DE").orElseThrow();
  private static final Rulebook HOUSE = Rulebooks.bundled().find("HOUSE").orElseThrow();

  @Test
  void loadsEveryBundledBook() {
    assertThat(Rulebooks.bundled().all())
        .extracting(Rulebook::id)
        .containsExactly("EU", "DE", "OECD", "US", "US-TX", "HOUSE");
    assertThat(Rulebooks.bundled().find("NOWHERE")).isEmpty();
  }

  @TestFactory
  Stream<DynamicTest> everyFileHoldsToTheSchema() throws IOException {
    JsonSchema schema = schema();
    return Rulebooks.bundledFiles().stream()
        .map(
            file ->
                DynamicTest.dynamicTest(
                    file.name(),
                    () ->
                        assertThat(
                                schema.validate(
                                    new YAMLMapper().readTree(file.yaml()),
                                    context ->
                                        context
                                            .getExecutionConfig()
                                            .setFormatAssertionsEnabled(true)))
                            .isEmpty()));
  }

  @Test
  void schemaRefusesALimitWithoutItsSource() throws IOException {
    JsonNode without =
        new YAMLMapper().readTree(house("GERMINATION", "AT_LEAST", "90", "\"%\"", "CERTIFIED", ""));
    assertThat(schema().validate(without)).isNotEmpty();
  }

  @TestFactory
  Stream<DynamicTest> everyLimitHasItsSource() {
    CheckTable table = new CheckTable("limits.md", "book", "limit", "holds for", "source");
    List<Rulebook> books = new ArrayList<>(Rulebooks.bundled().all());
    books.add(Rulebooks.bundled().practice().orElseThrow());
    return books.stream()
        .flatMap(book -> book.lines().stream())
        .map(
            line ->
                DynamicTest.dynamicTest(
                    "%s %s %s %s"
                        .formatted(
                            line.limit().rulebookId(),
                            line.limit().quantity(),
                            line.limit().wording(),
                            line.categories()),
                    () -> {
                      assertThat(line.limit().text()).isNotBlank();
                      assertThat(line.limit().section()).isNotBlank();
                      if (line.limit().text().equals(Limit.NO_SOURCE)) {
                        assertThat(line.limit().verified()).isFalse();
                      }
                      table.row(
                          line.limit().rulebookId(),
                          line.limit().quantity() + ": " + line.limit().wording(),
                          "%s, rye %s".formatted(line.categories(), line.rye()),
                          line.limit().citation());
                    }));
  }

  @ParameterizedTest(name = "{0} {1} {2} {3}: {4} {5}")
  @CsvSource(
      textBlock =
          """
          # Seed Ordinance (SaatV), Annex 2, read in its text of 2010: no. 1.3.1.3b
          DE, ISOLATION_DISTANCE, BASIC,     STERILE_FEMALE, 1000, 1
          DE, ISOLATION_DISTANCE, CERTIFIED, F1_MIXTURE,      500, 1
          DE, ISOLATION_DISTANCE, BASIC,     POLLINATOR,      600, 1
          # no. 1.1.1.1 to 1.1.1.3 and 1.2.1.2, plants in 150 m2
          DE, OFF_TYPES_BY_AREA,  BASIC,     STERILE_FEMALE,    5, 150
          DE, OFF_TYPES_BY_AREA,  CERTIFIED, F1_MIXTURE,       15, 150
          DE, OTHER_CEREAL_PLANTS, BASIC,    MAINTAINER,        2, 150
          DE, OTHER_CEREAL_PLANTS, CERTIFIED, F1_MIXTURE,       6, 150
          DE, HARD_TO_SEPARATE_PLANTS, BASIC, STERILE_FEMALE,   5, 150
          DE, HARD_TO_SEPARATE_PLANTS, CERTIFIED, F1_MIXTURE,  10, 150
          DE, WILD_OAT_PLANTS,    BASIC,     STERILE_FEMALE,    1, 150
          DE, WILD_OAT_PLANTS,    CERTIFIED, F1_MIXTURE,        2, 150
          DE, SMUT_PLANTS,        BASIC,     STERILE_FEMALE,    3, 150
          DE, SMUT_PLANTS,        CERTIFIED, F1_MIXTURE,        5, 150
          # no. 1.4.2.1
          DE, FEMALE_STERILITY,   BASIC,     STERILE_FEMALE,   98, 1
          # the Directive by its transpositions: one plant in 30 m2 and in 10 m2
          EU, OFF_TYPES_BY_AREA,  BASIC,     STERILE_FEMALE,    1, 30
          EU, OFF_TYPES_BY_AREA,  CERTIFIED, F1_MIXTURE,        1, 10
          # 7 CFR 201.76 Table 5, hybrid barley (read) for the row of hybrid rye
          US, OFF_TYPES_BY_PLANTS, BASIC,    STERILE_FEMALE,    1, 3000
          US, OFF_TYPES_BY_PLANTS, CERTIFIED, F1_MIXTURE,       1, 1000
          """)
  void cropLimitsAreThePublishedOnes(
      String book, Quantity quantity, Category category, CropRole role, double value, double per) {
    Limit limit =
        Rulebooks.bundled()
            .find(book)
            .orElseThrow()
            .forCrop(quantity, category, role, SUMMER_2024)
            .orElseThrow();
    assertThat(limit.value()).isEqualTo(value / per);
    CheckTable.gates()
        .row(
            "%s %s, %s".formatted(quantity, category, role),
            value + " in " + per,
            limit.wording(),
            limit.citation());
  }

  @ParameterizedTest(name = "{0} {1} {2}: {3}")
  @CsvSource(
      textBlock =
          """
          # arrete of 15 September 1982, Annexe II
          EU, GERMINATION, BASIC, 85
          EU, GERMINATION, CERTIFIED, 85
          EU, ANALYTICAL_PURITY, CERTIFIED, 98
          EU, OTHER_SEEDS_TOTAL, BASIC, 4
          EU, OTHER_CEREAL_SEEDS, BASIC, 1
          EU, OTHER_PLANT_SEEDS, BASIC, 3
          EU, RAPHANUS_AND_AGROSTEMMA_SEEDS, BASIC, 1
          EU, OTHER_SEEDS_TOTAL, CERTIFIED, 10
          EU, OTHER_CEREAL_SEEDS, CERTIFIED, 7
          EU, OTHER_PLANT_SEEDS, CERTIFIED, 7
          EU, RAPHANUS_AND_AGROSTEMMA_SEEDS, CERTIFIED, 3
          EU, WILD_OAT_SEEDS, CERTIFIED, 0
          EU, LOLIUM_TEMULENTUM_SEEDS, BASIC, 0
          # from memory
          EU, ERGOT_BODIES, BASIC, 1
          EU, ERGOT_BODIES, CERTIFIED, 4
          # Seed Ordinance (SaatV), Annexes 3 and 4
          DE, OTHER_SEEDS_TOTAL, CERTIFIED, 6
          DE, OTHER_CEREAL_SEEDS, CERTIFIED, 3
          DE, OTHER_PLANT_SEEDS, CERTIFIED, 4
          DE, RAPHANUS_AND_AGROSTEMMA_SEEDS, CERTIFIED, 3
          DE, MOISTURE, CERTIFIED, 15
          DE, COUNT_SAMPLE_MASS, CERTIFIED, 500
          DE, LOT_MASS, CERTIFIED, 30000
          DE, SUBMITTED_SAMPLE_MASS, CERTIFIED, 1000
          # 7 CFR 201.54
          US, GERMINATION_SEEDS, CERTIFIED, 400
          """)
  void seedLimitsAreThePublishedOnes(
      String book, Quantity quantity, Category category, double value) {
    Limit limit =
        Rulebooks.bundled()
            .find(book)
            .orElseThrow()
            .forLot(quantity, category, Rye.HYBRID, SUMMER_2024)
            .orElseThrow();
    assertThat(limit.value()).isEqualTo(value);
    CheckTable.gates()
        .row("%s %s".formatted(quantity, category), "" + value, limit.wording(), limit.citation());
  }

  @Test
  void aLotWithAdmixtureMayWeighThirtyFiveTonnes() {
    assertThat(
            DE.forLot(Quantity.LOT_MASS, Category.CERTIFIED, Rye.HYBRID_WITH_ADMIXTURE, SUMMER_2024)
                .orElseThrow()
                .value())
        .isEqualTo(35_000);
  }

  @Test
  void ergotOfOtherRyeIsCountedMoreStrictly() {
    assertThat(
            EU.forLot(Quantity.ERGOT_BODIES, Category.CERTIFIED, Rye.OTHER, SUMMER_2024)
                .orElseThrow()
                .value())
        .isEqualTo(3);
  }

  @Test
  void aBookInheritsWhatItDoesNotGiveItself() {
    Limit inherited =
        HOUSE.forLot(Quantity.LOT_MASS, Category.BASIC, Rye.HYBRID, SUMMER_2024).orElseThrow();
    assertThat(inherited.rulebookId()).isEqualTo("EU");
    assertThat(inherited.value()).isEqualTo(30_000);
  }

  @Test
  void whereNoTextSpeaksCommonPracticeSaysThatItHasNoSource() {
    Limit weighing =
        EU.forLot(Quantity.MASS_BALANCE_TOLERANCE, Category.CERTIFIED, Rye.HYBRID, SUMMER_2024)
            .orElseThrow();
    assertThat(weighing.citation()).contains("common practice, no source");
    assertThat(weighing.verified()).isFalse();
  }

  @Test
  void aLotIsJudgedByTheTextInForceAtItsDate() {
    assertThat(germination(HOUSE, LocalDate.of(2024, 7, 1)).value()).isEqualTo(86);
    assertThat(germination(HOUSE, LocalDate.of(2024, 12, 31)).value()).isEqualTo(86);
    assertThat(germination(HOUSE, LocalDate.of(2025, 1, 1)).value()).isEqualTo(88);
    assertThat(germination(HOUSE, LocalDate.of(2019, 7, 1)).rulebookId()).isEqualTo("EU");
  }

  @Test
  void hybridRyeHadNoConditionsBefore1995() {
    assertThat(
            EU.forCrop(
                Quantity.ISOLATION_DISTANCE,
                Category.CERTIFIED,
                CropRole.F1_MIXTURE,
                LocalDate.of(1994, 7, 1)))
        .isEmpty();
  }

  @ParameterizedTest(name = "{0} {1} {2} for {4} {5} is refused")
  @CsvSource(
      textBlock =
          """
          GERMINATION, AT_LEAST, 84, "%", CERTIFIED,
          MOISTURE, AT_LEAST, 12, "%", CERTIFIED,
          ISOLATION_DISTANCE, AT_LEAST, 499, m, CERTIFIED, F1_MIXTURE
          ERGOT_BODIES, AT_MOST, 5, bodies, CERTIFIED,
          MASS_BALANCE_TOLERANCE, AT_MOST, 0.6, "%", CERTIFIED,
          """,
      quoteCharacter = '\'')
  void aLooserHouseBookIsRefusedByName(
      Quantity quantity, String sense, String value, String unit, Category category, String role) {
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.removeIf(file -> file.name().contains("house"));
    String roles = role == null ? "" : "    roles: [%s]\n".formatted(role);
    files.add(
        new RulebookFile(
            "loose.yaml",
            house(quantity.name(), sense, value, unit, category.name(), roles + SOURCE)
                .replace("tightens: EU", "tightens: DE")));
    assertThatThrownBy(() -> Rulebooks.load(files))
        .isInstanceOf(RulebookRefused.class)
        .hasMessageContaining("loose.yaml: limits[0] (" + quantity)
        .hasMessageContaining("is looser than")
        .hasMessageContaining("may only be stricter");
  }

  @Test
  void aSecondSampleThatSavesMoreThanTheLawAllowsIsLooser() {
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.add(
        new RulebookFile(
            "loose.yaml",
            house(
                "ERGOT_BODIES",
                "AT_MOST",
                "3",
                "bodies",
                "CERTIFIED",
                "    secondSample: {firstAtMost: 6, secondAtMost: 3}\n" + SOURCE)));
    assertThatThrownBy(() -> Rulebooks.load(files)).hasMessageContaining("ERGOT_BODIES");
  }

  @ParameterizedTest(name = "{0} -> {1}: names {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          value: 90       | value: much          | field value: 'much' is not a number
          GERMINATION     | GERMINATE            | field quantity: 'GERMINATE' is none of
          unit: "%"       | unit: kg             | field unit: 'kg' is not %
          2020-01-01      | 2020-13-01           | field inForceFrom: '2020-13-01' is not a day
          section: "1"    | section: ""          | field section: is missing or empty
          [CERTIFIED]     | []                   | field categories: a list with at least one value
          verified: true  | verified: perhaps    | field verified
          tightens: EU    | tightens: ATLANTIS   | no rulebook 'ATLANTIS' is loaded
          """)
  void anErrorNamesFileItemAndField(String good, String bad, String named) {
    String yaml = house("GERMINATION", "AT_LEAST", "90", "\"%\"", "CERTIFIED", SOURCE);
    assertThat(yaml).contains(good);
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.add(new RulebookFile("mine.yaml", yaml.replace(good, bad)));
    assertThatThrownBy(() -> Rulebooks.load(files))
        .isInstanceOf(RulebookRefused.class)
        .hasMessageStartingWith("mine.yaml: ")
        .hasMessageContaining(named);
  }

  @ParameterizedTest(name = "{0} {4} is read by nothing")
  @CsvSource(
      quoteCharacter = '\'',
      textBlock =
          """
          BLEND_SHARE, AT_MOST, 5, "%", BASIC,
          FEMALE_STERILITY, AT_LEAST, 99, "%", BASIC, MAINTAINER
          ISOLATION_DISTANCE, AT_LEAST, 2000, m, CERTIFIED, POLLINATOR
          ISOLATION_DISTANCE, AT_LEAST, 2000, m, BASIC, F1_MIXTURE
          LARGE_SOURCE_AREA, AT_LEAST, 20, ha, BASIC,
          """)
  void aLineThatNothingReadsIsRefused(
      Quantity quantity, String sense, String value, String unit, Category category, String role) {
    String roles = role == null ? "" : "    roles: [%s]\n".formatted(role);
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.add(
        new RulebookFile(
            "unread.yaml",
            house(quantity.name(), sense, value, unit, category.name(), roles + SOURCE)));
    assertThatThrownBy(() -> Rulebooks.load(files))
        .isInstanceOf(RulebookRefused.class)
        .hasMessageContaining("unread.yaml: limits[0] (" + quantity)
        .hasMessageContaining("nothing reads this line");
  }

  @Test
  void aLineBehindAnotherOfTheSameBookIsRefused() {
    String twice = house("GERMINATION", "AT_LEAST", "90", "\"%\"", "CERTIFIED", SOURCE);
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.add(
        new RulebookFile(
            "twice.yaml",
            twice
                + twice
                    .substring(twice.indexOf("  - quantity"))
                    .replace("value: 90", "value: 91")));
    assertThatThrownBy(() -> Rulebooks.load(files))
        .hasMessageContaining("twice.yaml: limits[1] (GERMINATION");
  }

  @Test
  void aBookMayNotAskForNothingWhereTheOneItTightensHasALimit() {
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.add(
        new RulebookFile(
            "loose.yaml",
            house("MOISTURE", "AT_MOST", "14", "\"%\"", "CERTIFIED", SOURCE)
                + """
                nothingAsked:
                  - quantities: [GERMINATION]
                    categories: [CERTIFIED]
                    inForceFrom: "2020-01-01"
                    source: {text: "House rules of a test", section: "2"}
                    verified: true
                """));
    assertThatThrownBy(() -> Rulebooks.load(files))
        .hasMessageContaining("loose.yaml: nothingAsked[0] (GERMINATION")
        .hasMessageContaining("may only be stricter");
  }

  private static final String SOURCE =
      """
          source: {text: "House rules of a test", section: "1"}
          verified: true
      """;

  private static String house(
      String quantity, String sense, String value, String unit, String category, String more) {
    return """
    id: MINE
    title: "House rules of a test"
    edition: "2026-01-01"
    status: house
    tightens: EU
    limits:
      - quantity: %s
        sense: %s
        value: %s
        unit: %s
        categories: [%s]
        inForceFrom: "2020-01-01"
    %s"""
        .formatted(quantity, sense, value, unit, category, more);
  }

  private static Limit germination(Rulebook book, LocalDate on) {
    return book.forLot(Quantity.GERMINATION, Category.CERTIFIED, Rye.HYBRID, on).orElseThrow();
  }

  private static JsonSchema schema() throws IOException {
    try (InputStream in =
        Rulebooks.class.getClassLoader().getResourceAsStream("rulebooks/rulebook.schema.json")) {
      JsonNode node =
          new ObjectMapper().readTree(new String(in.readAllBytes(), StandardCharsets.UTF_8));
      return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(node);
    }
  }

  /** A distance beyond which no source is looked for would never be found too short. */
  @ParameterizedTest(name = "{0} of {1} m is refused")
  @CsvSource({
    "ISOLATION_DISTANCE, 2001",
    "ISOLATION_DISTANCE_LARGE_SOURCE, 5000",
  })
  void aDistanceThatIsNotLookedAtIsRefused(Quantity quantity, String value) {
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.add(
        new RulebookFile(
            "far.yaml", house(quantity.name(), "AT_LEAST", value, "m", "CERTIFIED", SOURCE)));
    assertThatThrownBy(() -> Rulebooks.load(files))
        .isInstanceOf(RulebookRefused.class)
        .hasMessage(
            "far.yaml: limits[0] (%s): field value: %s m is more than the 2000 m in which foreign"
                    .formatted(quantity, value)
                + " pollen is looked for");
  }

  /** Our own rule: rye of earlier years is not looked for, so nothing would contradict a grower. */
  @Test
  void moreYearsWithoutRyeThanAreLookedAtAreRefused() {
    assertThat(withYears("3").find("MINE")).isPresent();
    assertThatThrownBy(() -> withYears("4"))
        .isInstanceOf(RulebookRefused.class)
        .hasMessage(
            "years.yaml: limits[0] (YEARS_WITHOUT_RYE): field value: 4 years are more than the 3 in"
                + " which earlier rye is looked for");
  }

  private static Rulebooks withYears(String years) {
    List<RulebookFile> files = new ArrayList<>(Rulebooks.bundledFiles());
    files.add(
        new RulebookFile(
            "years.yaml",
            house("YEARS_WITHOUT_RYE", "AT_LEAST", years, "years", "CERTIFIED", SOURCE)));
    return Rulebooks.load(files);
  }
}
