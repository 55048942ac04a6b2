package org.kornspur.api.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.CondemnationFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.GerminationFinding;
import org.kornspur.processors.finding.IsolationFinding;
import org.kornspur.processors.finding.SterilityFinding;
import org.kornspur.standing.VerdictLimit;
import org.kornspur.standing.VerdictValue;

class ReaderWordsTest {
  private static final LocalDate SPRING = LocalDate.of(2026, 4, 1);
  private static final LocalDate AUTUMN = LocalDate.of(2026, 9, 1);
  private final ReaderWords english = EnglishWords.words(Language.ENGLISH, SPRING);
  private final ReaderWords german = EnglishWords.words(Language.GERMAN, SPRING);

  @Test
  void theSameFindingIsSaidInEachLanguage() {
    Coded found = new GerminationFinding.Found(Amount.percent(92), 1368, 1500).coded();

    assertThat(spaced(english.plain(found)))
        .isEqualTo("Germination is 92 % (1,368 of 1,500 seeds).");
    assertThat(spaced(german.plain(found)))
        .isEqualTo("Keimfähigkeit 92 % (1.368 von 1.500 Samen).");
  }

  @Test
  void oneIsNoPlural() {
    assertThat(english.plain(new SterilityFinding.Plants(Amount.percent(99), 1, 100)))
        .endsWith("(1 of 100 sheds).");
    assertThat(english.plain(new SterilityFinding.Plants(Amount.percent(98), 2, 100)))
        .endsWith("(2 of 100 shed).");
    assertThat(german.plain(new Evidence.FurtherVisits(1))).isEqualTo("1 weitere Feldbesichtigung");
    assertThat(german.plain(new Evidence.FurtherVisits(2)))
        .isEqualTo("2 weitere Feldbesichtigungen");
  }

  @Test
  void adviceKnowsTheDay() {
    Coded advice = new Advice.DestroySource(LocalDate.of(2026, 6, 10)).coded();

    assertThat(english.plain(advice)).contains("before it sheds");
    assertThat(EnglishWords.words(Language.ENGLISH, LocalDate.of(2026, 6, 10)).plain(advice))
        .as("on the last day")
        .contains("before it sheds");
    assertThat(EnglishWords.words(Language.ENGLISH, AUTUMN).plain(advice))
        .contains("Hold what is in store", "customers")
        .doesNotContain("before it sheds");
    assertThat(EnglishWords.words(Language.GERMAN, AUTUMN).plain(advice))
        .contains("Lagerbestand festhalten", "Abnehmer");
  }

  @Test
  void whatIsAbsentIsLeftOut() {
    assertThat(
            spaced(
                english.plain(
                    new IsolationFinding.Source(
                        Subject.crop("C1"), Optional.empty(), Amount.metres(318.6)))))
        .isEqualTo("crop C1, 318.6 m away");
    assertThat(
            spaced(
                german.plain(
                    new IsolationFinding.Source(
                        Subject.source("S1"),
                        Optional.of(PollenSourceKind.RYE_CROP),
                        Amount.metres(318.6)))))
        .isEqualTo("Roggenfeld S1, 318,6 m entfernt");
  }

  @Test
  void severalThingsAreListedAsALanguageDoes() {
    Evidence evidence =
        new Evidence.Correction(List.of(new Fact("a"), new Fact("b"), new Fact("c")));

    assertThat(english.plain(evidence)).isEqualTo("correction of one of the records a, b and c");
    assertThat(german.plain(evidence)).isEqualTo("Berichtigung eines der Belege a, b und c");
  }

  @Test
  void recordedWordsCannotBecomeMarkup() {
    Coded condemned =
        new CondemnationFinding.Condemned(
                new Person("p-1"), Instant.EPOCH, "<script>alert('{0}')</script> \uE0000\uE001")
            .coded();

    assertThat(english.html(condemned))
        .contains("&lt;script&gt;alert('{0}')")
        .doesNotContain("<script>");
  }

  @Test
  void idsAreLinksOnPagesAndWithheldOnesAreNot() {
    ReaderWords reader =
        new ReaderWords(
            new Audience() {
              @Override
              public LocalFormat form() {
                return new LocalFormat(Language.ENGLISH, ZoneOffset.UTC);
              }

              @Override
              public LocalDate today() {
                return SPRING;
              }

              @Override
              public boolean names(Subject subject) {
                return !subject.id().equals("SECRET");
              }

              @Override
              public boolean namesFact(String factId) {
                return !factId.contains("SECRET");
              }

              @Override
              public Optional<String> nameOf(Subject enterprise) {
                return Optional.of("Invented Multiplier North");
              }

              @Override
              public Optional<String> pageOf(Subject subject) {
                return Optional.of("/lots/" + subject.id());
              }
            });
    Coded own = new Evidence.OriginOf(Subject.lot("L&1")).coded();
    Coded secret = new Evidence.OriginOf(Subject.lot("SECRET")).coded();

    assertThat(reader.html(own))
        .isEqualTo("origin of <a href=\"/lots/L&amp;1\" title=\"lot L&amp;1\">lot L&amp;1</a>");
    assertThat(reader.html(secret)).isEqualTo("origin of a lot of another enterprise");
    assertThat(reader.plain(secret)).doesNotContain("SECRET");
    assertThat(reader.visible(secret).toString()).doesNotContain("SECRET");
    assertThat(reader.plain(new Evidence.Correction(List.of(new Fact("f-SECRET-1")))))
        .doesNotContain("SECRET");
    assertThat(reader.plain(new Evidence.OriginOf(Subject.enterprise("E-1"))))
        .isEqualTo("origin of Invented Multiplier North");
  }

  @Test
  void aNumberHasOneDigitMoreThanItsLimitAndNeverSeemsToMeetItWhenItDoesNot() {
    VerdictWords words = new VerdictWords(english);

    assertThat(spaced(words.measure(2.94406, "%", limit(3, "%")))).isEqualTo("2.9 %");
    assertThat(spaced(words.measure(11.9949, "%", limit(12, "%")))).isEqualTo("11.99 %");
    assertThat(spaced(words.measure(97.999999, "%", limit(98, "%")))).isEqualTo("97.999999 %");
    assertThat(spaced(words.measure(98, "%", limit(98, "%")))).isEqualTo("98 %");
    assertThat(spaced(words.measure(318.68, "m", limit(500, "m")))).isEqualTo("318.7 m");
    assertThat(spaced(words.measure(499.98, "m", limit(500, "m")))).isEqualTo("499.98 m");
    assertThat(spaced(words.measure(0.0021, "plants/plant", limit(0.003, "plants/plant"))))
        .isEqualTo("0.21 per 100 plants");
  }

  /** A reader who takes one from the other comes to what is shown. */
  @Test
  void theMarginIsWhatValueAndLimitDifferByAsShown() {
    VerdictWords words = new VerdictWords(english);

    assertThat(
            words.apart(value(318.69, -181.31, "m"), limit(500, "m")).map(ReaderWordsTest::spaced))
        .contains("181.3 m");
    assertThat(words.apart(value(512, 12, "m"), limit(500, "m")).map(ReaderWordsTest::spaced))
        .contains("12 m");
    assertThat(words.apart(value(499.98, -0.02, "m"), limit(500, "m")).map(ReaderWordsTest::spaced))
        .contains("0.02 m");
    assertThat(
            words
                .apart(value(0.0021, 0.0009, "plants/plant"), limit(0.003, "plants/plant"))
                .map(ReaderWordsTest::spaced))
        .contains("0.09 per 100 plants");
    assertThat(words.apart(value(3, 1, "kg"), limit(500, "m"))).isEmpty();
  }

  private static VerdictValue value(double value, double margin, String unit) {
    return VerdictValue.newBuilder().setValue(value).setMargin(margin).setUnit(unit).build();
  }

  /** Between a number and its unit stands a space at which no line breaks. */
  private static String spaced(String text) {
    return text.replace('\u00a0', ' ');
  }

  private static VerdictLimit limit(double value, String unit) {
    return VerdictLimit.newBuilder()
        .setQuantity("MOISTURE")
        .setSense("AT_MOST")
        .setValue(value)
        .setUnit(unit)
        .setRulebookId("HOUSE")
        .setEdition("1")
        .setSection("1")
        .setInForceFrom(SPRING)
        .setVerified(true)
        .build();
  }
}
