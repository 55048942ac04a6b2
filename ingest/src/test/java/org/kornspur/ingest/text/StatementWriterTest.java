package org.kornspur.ingest.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.MathContext;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

class StatementWriterTest {

  enum Colour {
    RED
  }

  sealed interface Garden extends Statement {
    record Plants(int count) implements Garden {}

    record Painted(Colour colour, Optional<String> by) implements Garden {}

    record Coloured(Colour colour) implements Garden {}

    record Lots(List<Subject> lots) implements Garden {}

    record Measured(List<Amount> amounts) implements Garden {}

    record Seen(LocalDate day, Instant time) implements Garden {}

    record Around(Statement inner) implements Garden {}
  }

  private static final Map<String, String> ENGLISH =
      Map.of(
          "garden.plants", "{count, plural, one {# plant} other {# plants}}",
          "garden.painted",
              "{colourKey, select, RED {red} other {?}}{by, select, absent {} other { by {by}}}",
          "garden.coloured", "{colour}",
          "garden.lots", "lots {lots}",
          "garden.measured", "{amounts}",
          "garden.seen", "{day}, {time}",
          "garden.around", "({inner})",
          "term.Colour.RED", "bright red",
          "amount.percentage-points",
              "{number, plural, one {{written} point} other {{written} points}}");

  private final StatementWriter english = words(Locale.UK, ENGLISH);
  private final StatementWriter german =
      words(Locale.GERMANY, Map.of("garden.measured", "{amounts}", "garden.seen", "{day}, {time}"));

  @Test
  void countsHaveTheirPlural() {
    assertThat(english.of(new Garden.Plants(1).coded())).isEqualTo("1 plant");
    assertThat(english.of(new Garden.Plants(12_000).coded())).isEqualTo("12,000 plants");
  }

  @Test
  void aTermChoosesABranchOrIsWritten() {
    assertThat(english.of(new Garden.Painted(Colour.RED, Optional.empty()).coded()))
        .isEqualTo("red");
    assertThat(english.of(new Garden.Painted(Colour.RED, Optional.of("Eva {x}")).coded()))
        .isEqualTo("red by Eva {x}");
    assertThat(english.of(new Garden.Coloured(Colour.RED).coded())).isEqualTo("bright red");
  }

  @Test
  void listsAreJoined() {
    List<Subject> lots = List.of(Subject.lot("A"), Subject.lot("B"), Subject.lot("C"));
    assertThat(english.of(new Garden.Lots(lots).coded())).isEqualTo("lots A, B and C");
  }

  @Test
  void amountsAreWrittenInFullWithTheirUnit() {
    Statement amounts =
        new Garden.Measured(
            List.of(
                new Amount(1234.5, "kg"),
                new Amount(1, "percentage points"),
                new Amount(1.5, "percentage points"),
                new Amount(2024, ""),
                new Amount(1e-180, "g")));
    assertThat(english.of(amounts.coded()))
        .isEqualTo("1,234.5\u00a0kg, 1 point, 1.5 points, 2024 and 1.0E-180\u00a0g");
    assertThat(german.of(amounts.coded()))
        .isEqualTo(
            "1.234,5\u00a0kg, 1\u00a0percentage points, 1,5\u00a0percentage points, 2024"
                + " und 1.0E-180\u00a0g");
  }

  @Test
  void daysAndTimesAreThoseOfTheLanguage() {
    Statement seen =
        new Garden.Seen(LocalDate.of(2025, 6, 2), Instant.parse("2025-06-02T12:03:09Z"));
    assertThat(english.of(seen.coded())).isEqualTo("2 Jun 2025, 2 Jun 2025, 14:03:09 (UTC+02:00)");
    assertThat(german.of(seen.coded())).isEqualTo("02.06.2025, 02.06.2025, 14:03:09 (UTC+02:00)");
  }

  @Test
  void statementsStandWithinStatements() {
    Coded around = new Garden.Around(new Garden.Plants(2)).coded();
    assertThat(english.of(around)).isEqualTo("(2 plants)");
  }

  @Test
  void aStatementOfALaterReleaseIsStillReadable() {
    assertThat(german.of(new Garden.Around(new Garden.Plants(2)).coded()))
        .isEqualTo("garden.around (inner garden.plants (count 2))");
  }

  @Test
  void twoTextsForOneKeyAreRefused() {
    TextBundle texts = TextBundle.of(Locale.UK, Map.of("a", "b"));
    assertThatThrownBy(() -> texts.and(texts)).hasMessageContaining("key a");
  }

  @Test
  void aPatternThatCannotBeReadIsNamed() {
    assertThatThrownBy(() -> TextBundle.of(Locale.UK, Map.of("a.b", "{open")))
        .hasMessageContaining("a.b");
  }

  private static StatementWriter words(Locale locale, Map<String, String> patterns) {
    TextBundle texts = TextBundle.of(locale, patterns);
    return new StatementWriter(
        texts, new PlainFormat(texts, ZoneId.of("Europe/Berlin"), MathContext.UNLIMITED));
  }
}
