package org.kornspur.api.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.command.act.ActStatement;
import org.kornspur.api.export.label.LabelStatement;
import org.kornspur.api.query.recall.RecallStatement;
import org.kornspur.api.query.view.AsOfNote;
import org.kornspur.api.query.view.Notice;
import org.kornspur.api.query.view.TraceNote;
import org.kornspur.contract.Category;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.text.TextBundle;
import org.kornspur.processors.advice.AdviceStatement;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.plan.BindingLimit;
import org.kornspur.processors.plan.Remedy;
import org.kornspur.processors.plan.field.FieldConflict;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.NothingAskedLine;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookLine;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.statistics.NoTable;

/** That every statement has its words in every language, and no word is without a statement. */
class StatementTextsTest {
  /** What a pattern may speak of besides the components of its record. */
  private static final Pattern DERIVED = Pattern.compile("(.+?)(Key|Count|Id)");

  /** Keys that no statement has: names, whole verdicts, units, terms. */
  private static final Pattern OF_NO_STATEMENT =
      Pattern.compile("(subject|fact|person|verdict|standing|caution|rulebook|unit|term)\\..*");

  private static final Pattern NO_PROSE = Pattern.compile("([^a-zA-Z{}]|\\{[^{}]*})*");

  /** Every kind of statement that this program can make. */
  static List<Class<? extends Statement>> kinds() {
    return Stream.of(
            Finding.class,
            NoTable.class,
            ActStatement.class,
            RecallStatement.class,
            AsOfNote.class,
            TraceNote.class,
            AdviceStatement.class,
            BindingLimit.class,
            FieldConflict.class,
            Remedy.class,
            LabelStatement.class,
            Notice.class)
        .flatMap(StatementTextsTest::kindsOf)
        .<Class<? extends Statement>>map(kind -> kind.asSubclass(Statement.class))
        .toList();
  }

  private static Stream<Class<?>> kindsOf(Class<?> family) {
    return family.isRecord()
        ? Stream.of(family)
        : Arrays.stream(family.getPermittedSubclasses()).flatMap(StatementTextsTest::kindsOf);
  }

  @ParameterizedTest
  @EnumSource
  void everyStatementHasWordsOfItsArgumentsAlone(Language language) {
    TextBundle patterns = StatementTexts.in(language).texts();
    for (Class<? extends Statement> kind : kinds()) {
      String code = Coded.codeOf(kind);
      assertThat(patterns.has(code)).as("%s in %s", code, language).isTrue();
      Set<String> arguments =
          Arrays.stream(kind.getRecordComponents())
              .map(RecordComponent::getName)
              .collect(Collectors.toSet());
      assertThat(patterns.arguments(code))
          .as("%s in %s", code, language)
          .allMatch(
              named ->
                  arguments.contains(named)
                      || DERIVED
                          .matcher(named)
                          .results()
                          .anyMatch(m -> arguments.contains(m.group(1))));
    }
  }

  @ParameterizedTest
  @EnumSource
  void noWordsAreLeftOver(Language language) {
    Set<String> codes = kinds().stream().map(Coded::codeOf).collect(Collectors.toSet());
    assertThat(StatementTexts.in(language).statements().keys())
        .filteredOn(key -> !OF_NO_STATEMENT.matcher(key).matches())
        .map(key -> key.replaceFirst("\\.afterwards$", ""))
        .isSubsetOf(codes);
  }

  @Test
  void bothLanguagesSayTheSame() {
    assertThat(StatementTexts.in(Language.GERMAN).statements().keys())
        .containsExactlyInAnyOrderElementsOf(
            StatementTexts.in(Language.ENGLISH).statements().keys());
    assertThat(StatementTexts.in(Language.ENGLISH).statements().keys())
        .allSatisfy(
            key ->
                assertThat(without(StatementTexts.in(Language.GERMAN).statements().arguments(key)))
                    .as(key)
                    .isEqualTo(
                        without(StatementTexts.in(Language.ENGLISH).statements().arguments(key))));
  }

  /** A language may need the plural where the other does not. */
  private static Set<String> without(Set<String> arguments) {
    return arguments.stream()
        .filter(name -> !name.equals("amount"))
        .map(name -> name.replaceFirst("(Key|Count|Id)$", ""))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void noGermanTextIsTheEnglishOne() {
    Set<String> same =
        StatementTexts.in(Language.ENGLISH).statements().keys().stream()
            .filter(key -> raw(Language.ENGLISH, key).equals(raw(Language.GERMAN, key)))
            .filter(key -> !NO_PROSE.matcher(raw(Language.ENGLISH, key)).matches())
            .filter(key -> !key.startsWith("unit."))
            .collect(Collectors.toCollection(TreeSet::new));
    assertThat(same).isEmpty();
  }

  private static String raw(Language language, String key) {
    return StatementTexts.in(language).statements().raw(key).orElseThrow();
  }

  /** Titles and sections stand in German too, for every bundled rulebook. */
  @Test
  void everyBundledSourceHasItsGermanName() {
    StatementTexts german = StatementTexts.in(Language.GERMAN);
    for (Rulebook book : Rulebooks.bundled().all()) {
      for (RulebookLine line : book.lines()) {
        hasGermanName(german, line.limit().text(), line.limit().section());
      }
      for (NothingAskedLine line : book.nothingAsked()) {
        hasGermanName(german, line.nothing().text(), line.nothing().section());
      }
      book.primarySamples().stream()
          .flatMap(table -> table.sources().values().stream())
          .forEach(source -> hasGermanName(german, source.text()));
      for (Category category : Category.values()) {
        book.judgedAs(category, LocalDate.of(2026, 7, 1))
            .ifPresent(as -> hasGermanName(german, as.source().text(), as.source().section()));
      }
    }
  }

  private static void hasGermanName(StatementTexts german, String... citation) {
    for (String words : citation) {
      boolean isNumber = words.matches("[0-9.]+");
      boolean isOwnWord = words.equals(Limit.NO_SOURCE);
      assertThat(isNumber || isOwnWord || !german.citation(words).equals(words)).as(words).isTrue();
    }
  }

  @Test
  void amountsHaveTheirUnits() {
    assertThat(
            kinds().stream()
                .flatMap(kind -> Arrays.stream(kind.getRecordComponents()))
                .filter(component -> component.getType() == double.class))
        .as("numbers without a unit; use %s", Amount.class)
        .isEmpty();
  }
}
