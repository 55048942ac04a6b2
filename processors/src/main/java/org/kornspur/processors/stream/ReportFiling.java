package org.kornspur.processors.stream;

import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Report;

/** Puts what parents, hybrids and the ground tell into a dossier, and has it judged. */
final class ReportFiling implements Processor<String, ReportChange, Subject, DossierChange> {
  private ProcessorContext<Subject, DossierChange> context;
  private KeyValueStore<String, byte[]> reports;

  @Override
  public void init(ProcessorContext<Subject, DossierChange> context) {
    this.context = context;
    reports = context.getStateStore(StateStores.DOSSIER_REPORTS);
  }

  @Override
  public void process(Record<String, ReportChange> record) {
    Subject subject = Keys.subject(record.key());
    ReportChange change = record.value();
    if (!change.isReminder()) {
      change.report().ifPresent(report -> requireReportTo(subject, change.sender(), report));
      file(subject, change);
    }
    DossierChange filed =
        change.isReminder()
            ? new DossierChange.Reminder()
            : new DossierChange.OfReport(change.sender());
    context.forward(new Record<>(subject, filed, record.timestamp()));
  }

  private void file(Subject receiver, ReportChange change) {
    String key = Keys.of(receiver, change.sender());
    change.kept().ifPresentOrElse(report -> reports.put(key, report), () -> reports.delete(key));
  }

  /** What no sender said is not filed: nobody would ever take it back. */
  private static void requireReportTo(Subject subject, String sender, Report report) {
    InternalSerdes.requireWhole(report);
    if (!report.sender().equals(sender) || !report.receiver().equals(subject)) {
      throw new IllegalArgumentException(
          "Not a report of " + sender + " to " + subject + " as the record's key and sender say");
    }
  }
}
