package org.kornspur.api.export.audit;

import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.http.Csv;
import org.kornspur.api.security.people.JournalLine;
import org.kornspur.api.security.people.JournalReading;
import org.kornspur.api.text.PageTexts;

/** The journal of people as a table, oldest first, with the hash that chains each line. */
record JournalFile(JournalReading journal, PageTexts texts) {

  String csv() {
    return Csv.line(
            Stream.of(
                    "journalNumber",
                    "journalAt",
                    "journalBy",
                    "journalPerson",
                    "journalWhat",
                    "journalFrom",
                    "journalTo",
                    "journalPrevious")
                .map(column -> Csv.text(texts.of(column))))
        + journal.lines().stream().map(this::line).collect(Collectors.joining());
  }

  private String line(JournalLine line) {
    return Csv.line(
        Stream.of(
            String.valueOf(line.number()),
            Csv.text(line.at()),
            Csv.text(line.by()),
            Csv.text(line.personId()),
            Csv.text(line.what().name()),
            Csv.text(Optional.ofNullable(line.from()).orElse("")),
            Csv.text(Optional.ofNullable(line.to()).orElse("")),
            Csv.text(line.previous())));
  }

  /** Whether it is whole, in a sentence. */
  String state() {
    return journal
        .broken()
        .map(broken -> texts.of("journalBroken", broken.line()))
        .orElseGet(() -> texts.of("journalWhole", journal.head()));
  }
}
