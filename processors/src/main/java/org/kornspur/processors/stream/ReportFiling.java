package org.kornspur.processors.stream;

import java.util.function.Supplier;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.judging.Judge;

/**
 * Puts what parents, hybrids and the ground tell into a dossier, and has it judged again.
 *
 * <p>A dossier that several tell is judged at the first word. It then sends itself a reminder
 * through the loop-back, behind all that is on its way there. What comes before the reminder is
 * filed only, and judged at once when the reminder is back. Without this, reports double wherever
 * ways that parted meet again: a result withdrawn above thirty pairs of lots, each pair merged from
 * both of the one before, would be judged a thousand million times.
 */
final class ReportFiling implements Processor<String, ReportChange, String, DossierRecord> {
  private static final String NOTHING_NEW = "nothing new";
  private static final String TO_BE_JUDGED = "to be judged";

  private final WireFormat wire;
  private final Supplier<Judge> judges;
  private ProcessorContext<String, DossierRecord> context;
  private DossierUpdater desk;
  private KeyValueStore<String, String> awaited;

  ReportFiling(WireFormat wire, Supplier<Judge> judges) {
    this.wire = wire;
    this.judges = judges;
  }

  @Override
  public void init(ProcessorContext<String, DossierRecord> context) {
    this.context = context;
    desk = new DossierUpdater(context, wire, judges);
    awaited = context.getStateStore(StateStores.DOSSIER_REMINDERS);
  }

  @Override
  public void process(Record<String, ReportChange> record) {
    Subject subject = Keys.subject(record.key());
    ReportChange change = record.value();
    if (change.isReminder()) {
      remember(subject);
    } else {
      change.report().ifPresent(report -> requireReportTo(subject, change.sender(), report));
      desk.fileReport(subject, change);
      hear(subject);
    }
  }

  /** What no sender said is not filed: nobody would ever take it back. */
  private static void requireReportTo(Subject subject, String sender, Report report) {
    InternalJson.requireWhole(report);
    if (!report.sender().equals(sender) || !report.receiver().equals(subject)) {
      throw new IllegalArgumentException(
          "Not a report of " + sender + " to " + subject + " as the record's key and sender say");
    }
  }

  private void remember(Subject subject) {
    if (TO_BE_JUDGED.equals(awaited.delete(subject.toString()))) {
      judge(subject);
    }
  }

  private void hear(Subject subject) {
    if (awaited.get(subject.toString()) == null) {
      judge(subject);
    } else {
      awaited.put(subject.toString(), TO_BE_JUDGED);
    }
  }

  private void judge(Subject subject) {
    boolean toldBySeveral = desk.refresh(subject);
    if (toldBySeveral) {
      awaited.put(subject.toString(), NOTHING_NEW);
      context.forward(
          new Record<>(subject.toString(), ReportChange.reminder(), context.currentSystemTimeMs()),
          Dossiers.TO_REPORTS);
    }
  }
}
