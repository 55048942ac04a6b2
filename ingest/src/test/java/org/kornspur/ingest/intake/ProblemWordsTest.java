package org.kornspur.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.QuarantineProblem;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.IntakeReason;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.problem.Reason;
import org.kornspur.ingest.problem.Remedy;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.ingest.text.TextBundle;

/** Every kind of problem has its words in each language, with exactly its arguments. */
class ProblemWordsTest {
  static final List<Locale> LANGUAGES = List.of(Locale.UK, Locale.GERMANY);

  private static final Set<String> SENTENCES =
      Set.of("problem.of-field", "problem.at-field", "problem.of-input", "problem.further");

  /** What a component of each type may hold. */
  private static final Map<Class<?>, Object> SAMPLES =
      Map.ofEntries(
          Map.entry(int.class, 2),
          Map.entry(long.class, 2L),
          Map.entry(String.class, "x"),
          Map.entry(Amount.class, Amount.kilograms(2)),
          Map.entry(Remedy.class, new Remedy("LotMass", "massKg")),
          Map.entry(Expected.class, new Expected.Text()),
          Map.entry(Optional.class, Optional.of(1)),
          Map.entry(List.class, List.of("a", "b")),
          Map.entry(LocalDate.class, LocalDate.of(2024, 6, 2)),
          Map.entry(Instant.class, Instant.parse("2024-06-02T12:00:00Z")),
          Map.entry(Category.class, Category.BASIC),
          Map.entry(Person.class, new Person("p-1")));

  @ParameterizedTest
  @FieldSource("LANGUAGES")
  void everyKindHasItsTextsAndNoTextIsLeftOver(Locale language) {
    Set<String> wanted = new TreeSet<>(SENTENCES);
    kinds(Given.class).forEach(kind -> wanted.add(Coded.codeOf(kind)));
    kinds(Expected.class).forEach(kind -> wanted.add(Coded.codeOf(kind)));
    kinds(IntakeReason.class).forEach(kind -> wanted.addAll(partsOf(kind)));
    fieldsOfNumbers().forEach(remedy -> wanted.add(remedy.coded().code()));

    assertThat(textsWithoutAmounts(language)).containsExactlyInAnyOrderElementsOf(wanted);
  }

  @ParameterizedTest
  @FieldSource("LANGUAGES")
  void everyTextUsesTheArgumentsOfItsKind(Locale language) {
    TextBundle texts = ProblemWords.texts(language);

    Stream.concat(kinds(Given.class), kinds(Expected.class))
        .forEach(
            kind ->
                assertThat(namesIn(texts, Coded.codeOf(kind)).collect(Collectors.toSet()))
                    .as(Coded.codeOf(kind))
                    .isEqualTo(componentsOf(kind)));
    kinds(IntakeReason.class)
        .forEach(
            kind ->
                assertThat(
                        partsOf(kind).stream()
                            .flatMap(key -> namesIn(texts, key))
                            .collect(Collectors.toSet()))
                    .as(Coded.codeOf(kind))
                    .isEqualTo(componentsOf(kind)));
    texts.keys().stream()
        .filter(key -> key.startsWith("amount."))
        .forEach(key -> assertThat(Set.of("number", "written")).containsAll(texts.arguments(key)));
  }

  @ParameterizedTest
  @FieldSource("LANGUAGES")
  void everyKindCanBeWritten(Locale language) {
    ProblemWords words = ProblemWords.in(language, ZoneOffset.UTC);

    kinds(Given.class)
        .forEach(
            kind -> {
              Problem problem = Problem.of("f", sample(kind), new NumberProblem.SampleAboveLot(KG));
              assertThat(words.value(problem)).isNotBlank().doesNotContain("given.", "absent}");
            });
    kinds(IntakeReason.class)
        .forEach(
            kind -> {
              Problem problem = Problem.of("f", null, (Reason) sample(kind));
              assertThat(List.of(words.limit(problem), words.remedy(problem)))
                  .allSatisfy(
                      text -> assertThat(text).isNotBlank().doesNotContain(Coded.codeOf(kind)));
            });
  }

  @Test
  void aMessageNamesFieldValueLimitUnitAndRemedy() {
    Problem problem =
        FactChecks.check(new MoistureTest(FactChecksTest.HEADER, "L", "S", 61.5, "E")).get(0);

    assertThat(ProblemWords.in(Locale.UK, ZoneOffset.UTC).sentence(problem))
        .isEqualTo(
            "moisturePercent is 61.5; expected 1\u00a0% to 60\u00a0%. Give"
                + " moisture in percent of wet mass.");
    assertThat(ProblemWords.in(Locale.GERMANY, ZoneOffset.UTC).sentence(problem))
        .isEqualTo(
            "moisturePercent: 61,5. Erwartet: 1\u00a0% bis 60\u00a0%."
                + " Feuchte in Prozent der Frischmasse angeben.");
  }

  @ParameterizedTest
  @FieldSource("LANGUAGES")
  void aProblemIsTheSameAfterItWasStored(Locale language) {
    kinds(IntakeReason.class)
        .forEach(
            kind -> {
              Problem problem = Problem.of("f", Double.NaN, (Reason) sample(kind));
              assertThat(Problem.of(problem.toContract())).isEqualTo(problem);
            });
    Problem recorded = Problem.of(new QuarantineProblem("f", "-1", "above 0 kg", "Weigh it", null));
    ProblemWords words = ProblemWords.in(language, ZoneOffset.UTC);
    assertThat(
            List.of(
                recorded.field(),
                words.value(recorded),
                words.limit(recorded),
                words.remedy(recorded)))
        .containsExactly("f", "-1", "above 0 kg", "Weigh it");
  }

  private static final Amount KG = Amount.kilograms(1);

  private static Stream<Class<? extends Statement>> kinds(Class<?> family) {
    return family.isSealed()
        ? Arrays.stream(family.getPermittedSubclasses()).flatMap(ProblemWordsTest::kinds)
        : Stream.of(family.asSubclass(Statement.class));
  }

  private static List<String> partsOf(Class<? extends Statement> kind) {
    return List.of(Coded.codeOf(kind) + Reason.LIMIT, Coded.codeOf(kind) + Reason.REMEDY);
  }

  private static Set<String> componentsOf(Class<?> kind) {
    return Arrays.stream(kind.getRecordComponents())
        .map(RecordComponent::getName)
        .collect(Collectors.toSet());
  }

  private static Statement sample(Class<? extends Statement> kind) {
    RecordComponent[] components = kind.getRecordComponents();
    try {
      return kind.getDeclaredConstructor(
              Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new))
          .newInstance(
              Arrays.stream(components)
                  .map(component -> SAMPLES.get(component.getType()))
                  .toArray());
    } catch (ReflectiveOperationException e) {
      throw new AssertionError(kind.getName(), e);
    }
  }

  private static List<String> textsWithoutAmounts(Locale language) {
    return ProblemWords.texts(language).keys().stream()
        .filter(key -> !key.startsWith("amount."))
        .toList();
  }

  private static Set<Remedy> fieldsOfNumbers() {
    Set<Remedy> remedies = new HashSet<>();
    Arrays.stream(FactType.values()).forEach(type -> addFields(type.schema(), remedies));
    return remedies;
  }

  private static void addFields(Schema record, Set<Remedy> remedies) {
    for (Schema.Field field : record.getFields()) {
      Schema schema = field.schema();
      while (schema.isUnion() || schema.getType() == Schema.Type.ARRAY) {
        schema = schema.isUnion() ? FieldLimits.branchOf(schema) : schema.getElementType();
      }
      if (schema.getType() == Schema.Type.RECORD) {
        addFields(schema, remedies);
      } else if (schema.getProp("unit") != null) {
        remedies.add(new Remedy(record.getName(), field.name()));
      }
    }
  }

  /** Names of arguments that a text uses; {@code fromKey} is of {@code from}. */
  private static Stream<String> namesIn(TextBundle texts, String key) {
    return texts.arguments(key).stream().map(name -> name.replaceFirst("Key$", ""));
  }
}
