package org.kornspur.api.web.help;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.text.Audience;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;

/** What people read of the rulebooks before they are judged by them. */
class RulesViewTest {
  private static final LocalDate DAY = LocalDate.of(2026, 7, 1);

  @ParameterizedTest
  @EnumSource
  void everyBookHasATableOfEachRoleAndKindInWords(Language language) {
    for (Rulebook book : Rulebooks.bundled().all()) {
      RulesView sheet = sheet(book.id(), language);
      assertThat(sheet.ofCrops()).hasSize(CropRole.values().length);
      assertThat(sheet.ofSeed()).hasSize(Material.Kind.values().length);
      assertThat(sheet.sources()).isNotEmpty().doesNotHaveDuplicates();
      for (List<RulesView.Table> tables : List.of(sheet.ofCrops(), sheet.ofSeed())) {
        for (RulesView.Table table : tables) {
          assertThat(table.rows()).hasSizeGreaterThan(10);
          for (RulesView.Row row : table.rows()) {
            // a name that has no words would stand there in capitals
            assertThat(row.what()).doesNotMatch(".*[A-Z]{3,}_.*");
            assertThat(row.cells()).hasSameSizeAs(table.categories());
            assertThat(row.cells())
                .allSatisfy(
                    cell -> {
                      boolean isSaid =
                          cell.kind() == RulesView.Kind.LIMIT
                              || cell.kind() == RulesView.Kind.NOTHING;
                      assertThat(cell.source() > 0).as(row.what()).isEqualTo(isSaid);
                      assertThat(cell.source()).isLessThanOrEqualTo(sheet.sources().size());
                      assertThat(cell.limit().isEmpty())
                          .isEqualTo(cell.kind() != RulesView.Kind.LIMIT);
                    });
          }
        }
      }
    }
  }

  /**
   * Source: Council Directive 66/402/EEC, Annexes I and II, as the rulebook cites them: 500 m for
   * certified seed of hybrid rye, germination of at least 85 %.
   */
  @Test
  void theEuropeanLimitsAreWhatTheDirectiveSays() {
    RulesView sheet = sheet("EU", Language.ENGLISH);
    assertThat(cell(sheet.ofCrops(), "F1_MIXTURE", "distance to foreign pollen", 0).limit())
        .isEqualTo("at least 500\u00a0m");
    RulesView.Cell germination = cell(sheet.ofSeed(), "F1_SEED", "germination", 0);
    assertThat(germination.limit()).isEqualTo("at least 85\u00a0%");
    assertThat(sheet.sources().get(germination.source() - 1))
        .contains("Council Directive 66/402/EEC")
        .contains("Annex II");
    assertThat(sheet.notes()).anyMatch(note -> note.contains("pre-basic seed"));
  }

  /**
   * Source: 7 CFR part 201 has no least germination; the book says so, and breeder seed is owed.
   */
  @Test
  void whatABookDoesNotAskForIsNoLimit() {
    RulesView sheet = sheet("US", Language.GERMAN);
    assertThat(cell(sheet.ofSeed(), "F1_SEED", "Keimfähigkeit", 0).kind())
        .isEqualTo(RulesView.Kind.NOTHING);
    assertThat(cell(sheet.ofSeed(), "COMPONENT", "Keimfähigkeit", 0).kind())
        .isEqualTo(RulesView.Kind.OWED);
  }

  private static RulesView sheet(String book, Language language) {
    return RulesView.of(
        Rulebooks.bundled().find(book).orElseThrow(),
        DAY,
        new ReaderWords(Audience.ofEverything(new LocalFormat(language, ZoneOffset.UTC), DAY)));
  }

  private static RulesView.Cell cell(
      List<RulesView.Table> tables, String table, String what, int column) {
    return tables.stream()
        .filter(one -> one.id().equals(table))
        .flatMap(one -> one.rows().stream())
        .filter(row -> row.what().equals(what))
        .findFirst()
        .orElseThrow()
        .cells()
        .get(column);
  }
}
