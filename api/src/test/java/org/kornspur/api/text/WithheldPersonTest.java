package org.kornspur.api.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.finding.ActFinding;

/** What leaves the pages names no person; on pages it does. */
class WithheldPersonTest {

  @ParameterizedTest
  @CsvSource({
    "ENGLISH, true, quality-07",
    "ENGLISH, false, a person",
    "GERMAN, true, quality-07",
    "GERMAN, false, eine Person"
  })
  void aPersonIsNamedOnlyWhereItMayBe(Language language, boolean namesPersons, String named) {
    String said =
        new ReaderWords(reader(language, namesPersons))
            .plain(new ActFinding.SignedBy(new Person("quality-07"), Instant.EPOCH));

    assertThat(said).contains(named);
    assertThat(said.contains("quality-07")).isEqualTo(namesPersons);
  }

  private static Audience reader(Language language, boolean namesPersons) {
    LocalFormat form = new LocalFormat(language, ZoneId.of("UTC"));
    Audience everything = Audience.ofEverything(form, LocalDate.EPOCH);
    return new Audience() {
      @Override
      public LocalFormat form() {
        return form;
      }

      @Override
      public LocalDate today() {
        return everything.today();
      }

      @Override
      public boolean names(Subject subject) {
        return true;
      }

      @Override
      public boolean namesFact(String factId) {
        return true;
      }

      @Override
      public boolean namesPersons() {
        return namesPersons;
      }

      @Override
      public Optional<String> nameOf(Subject enterprise) {
        return Optional.empty();
      }

      @Override
      public Optional<String> pageOf(Subject subject) {
        return Optional.empty();
      }
    };
  }
}
