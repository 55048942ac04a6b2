package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.advice.InspectionAdvice;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.standards.Rulebooks;

/**
 * Sentences for people count as English does. Source: Unicode CLDR, Language Plural Rules, English,
 * cardinal: the singular is for 1 alone.
 */
class CountsInWordsTest {
  /** One of something in the plural, or more in the singular, of the nouns that are counted. */
  private static final String NOUNS =
      "plant|female|ear|seed|kernel|seedling|visit|time|count|unit|day|body|replicate|point";

  private static final Pattern ONE_IN_THE_PLURAL =
      Pattern.compile(
          "(?<![\\d.,])1 ([a-z]+ )?(bodies|(" + NOUNS + ")s)\\b(?! and)", Pattern.CASE_INSENSITIVE);
  private static final Pattern MANY_IN_THE_SINGULAR =
      Pattern.compile("(?<![\\d.,])(0|[2-9]|\\d{2,}) (" + NOUNS + ")\\b(?!-)");

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 21})
  void everyGateCountsInWords(int found) {
    for (GateRule gate : Gates.all()) {
      for (String book : List.of("EU", "DE", "US")) {
        for (Dossier dossier : List.of(crop(found), lot(found))) {
          assertThat(Judged.by(book, gate, dossier).sentences())
              .as("%s %s", book, gate.getClass().getSimpleName())
              .doesNotContainPattern(ONE_IN_THE_PLURAL)
              .doesNotContainPattern(MANY_IN_THE_SINGULAR);
        }
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"EU", "US"})
  void adviceCountsInWords(String book) {
    List<InspectionAdvice> ofOneCount = new ArrayList<>();
    for (CropRole role : CropRole.values()) {
      InspectionAdvice advice =
          InspectionAdvice.of(
                  Dossiers.crop("c1")
                      .with(Facts.crop("c1", role), Facts.inspection("c1").offTypesAmong(1, 1))
                      .dossier(),
                  Rulebooks.bundled().find(book).orElseThrow(),
                  new InspectionAdvice.Terms(0.05, 0.05, 2))
              .orElseThrow();
      assertThat(advice.sentence())
          .doesNotContainPattern(ONE_IN_THE_PLURAL)
          .doesNotContainPattern(MANY_IN_THE_SINGULAR);
      if (advice.counts().size() == 1) {
        ofOneCount.add(advice);
      }
    }
    assertThat(ofOneCount)
        .isNotEmpty()
        .allSatisfy(advice -> assertThat(advice.sentence()).startsWith("Of 1 count in crop c1 "));
  }

  private static Dossier crop(int found) {
    return Dossiers.crop("c1")
        .with(
            Facts.crop("c1", CropRole.STERILE_FEMALE),
            Facts.inspection("c1").female().visit(1).offTypesInArea(found, 150),
            Facts.inspection("c1").female().visit(1).offTypesAmong(found, Math.max(1, found)),
            Facts.inspection("c1").female().visit(1).sheddingAmong(found, Math.max(1, found)))
        .dossier();
  }

  private static Dossier lot(int found) {
    return Dossiers.lot("l1")
        .with(
            Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
            Facts.germination("l1", 90 + Math.min(found, 1), 90, 89, 90),
            Facts.purity("l1", 99, 1, 0),
            Facts.otherSeeds("l1").with(sample -> sample.setErgotBodies(found)))
        .dossier();
  }
}
