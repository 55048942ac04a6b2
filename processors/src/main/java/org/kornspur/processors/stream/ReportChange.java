package org.kornspur.processors.stream;

import java.util.Objects;
import java.util.Optional;
import org.kornspur.processors.dossier.Report;

/**
 * That a sender's report to a receiver is new, changed, or no longer holds; or the reminder that a
 * task sent to itself.
 *
 * @param sender who tells
 * @param report the report; empty when the sender takes it back
 */
record ReportChange(String sender, Optional<Report> report) implements DossierRecord {
  /** Neither a subject nor a cell is named so. */
  private static final String ITSELF = "reminder";

  ReportChange {
    Keys.part(sender);
    Objects.requireNonNull(report, "report");
  }

  /** A report to its receiver, until its sender takes it back. */
  static Outbox.Letter<ReportChange> letter(Report report) {
    return new Outbox.Letter<>(
        new ReportChange(report.sender(), Optional.of(report)),
        Optional.of(new ReportChange(report.sender(), Optional.empty())));
  }

  static ReportChange reminder() {
    return new ReportChange(ITSELF, Optional.empty());
  }

  boolean isReminder() {
    return sender.equals(ITSELF);
  }
}
