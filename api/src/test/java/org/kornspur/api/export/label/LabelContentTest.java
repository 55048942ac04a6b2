package org.kornspur.api.export.label;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.api.export.DemoEntries;
import org.kornspur.api.text.EnglishWords;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;

class LabelContentTest {
  private static final String LINK = "https://seed.example/lots/L25-01";

  /** Seed Ordinance (SaatV), Annex 5 no. 1: 1.1 to 1.10 with 1.3a. */
  @Test
  void theGermanLabelHasTheItemsOfAnnexFive() {
    LabelRules rules = LabelRules.forRulebook("DE").orElseThrow();
    assertThat(
            rules.items().get(Category.CERTIFIED).stream()
                .filter(line -> line.section().startsWith("Annex 5"))
                .map(LabelRules.Line::item))
        .containsExactly(
            LabelItem.NORM,
            LabelItem.COUNTRY,
            LabelItem.AUTHORITY,
            LabelItem.SERIAL_NUMBER,
            LabelItem.SPECIES,
            LabelItem.VARIETY,
            LabelItem.CATEGORY,
            LabelItem.LOT_REFERENCE,
            LabelItem.TECHNICAL_MIXTURE,
            LabelItem.SAMPLED,
            LabelItem.COUNTRY_OF_PRODUCTION,
            LabelItem.PACKAGE_CONTENT);
  }

  @Test
  void onlyATechnicalMixtureSaysThatItIsOne() {
    LabelContent mixture = content("DE", Material.Kind.TECHNICAL_MIXTURE, Category.BASIC, none());
    LabelContent seed = content("DE", Material.Kind.F1_SEED, Category.CERTIFIED, none());
    assertThat(mixture.items()).extracting("text").contains("Technische Mischung");
    assertThat(seed.items()).extracting("text").doesNotContain("Technische Mischung");
    assertThat(seed.colour().text()).isEqualTo("blue");
  }

  @Test
  void whatIsNotKnownIsMissingAndNeverInvented() {
    LabelContent content = content("EU", Material.Kind.F1_SEED, Category.CERTIFIED, none());
    assertThat(content.missing())
        .anyMatch(line -> line.startsWith("SERIAL_NUMBER"))
        .anyMatch(line -> line.startsWith("AUTHORITY"));
    assertThat(content.items())
        .filteredOn(item -> item.item() == LabelItem.SAMPLED)
        .extracting(LabelContent.Item::text)
        .allMatch(text -> text.matches("\\d{2}/2025"));
  }

  @Test
  void saysFirstThatItIsNotOfficialThenWhatSpeaksAgainstIt() {
    LabelContent content =
        content(
            "OECD", Material.Kind.F1_SEED, Category.CERTIFIED, Optional.of("The lot is not fit."));
    assertThat(content.cautions())
        .startsWith(
            EnglishWords.words().plain(new LabelStatement.NotOfficial()), "The lot is not fit.")
        .anyMatch(caution -> caution.contains("could not be read in the text itself"));
  }

  @Test
  void everyLineHasASource() {
    for (LabelRules rules : LabelRules.all()) {
      rules.items().values().stream()
          .flatMap(List::stream)
          .forEach(line -> assertThat(line.section()).isNotBlank());
      assertThat(rules.items().keySet()).contains(Category.BASIC, Category.CERTIFIED);
    }
  }

  private static Optional<String> none() {
    return Optional.empty();
  }

  private static LabelContent content(
      String rulebook, Material.Kind kind, Category category, Optional<String> hindrance) {
    Subject lot = Subject.lot("L25-01-1");
    Dossier dossier = new Dossier(lot, DemoEntries.of(lot), List.of());
    Material material = new Material("HYB-01", "HYB-01", kind, category, 2025, rulebook);
    return LabelContent.of(
        LabelRules.forRulebook(rulebook).orElseThrow(),
        dossier,
        material,
        hindrance,
        LINK,
        EnglishWords.words());
  }
}
