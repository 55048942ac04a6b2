package org.kornspur.processors.stream;

import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/** Puts reports of parents, hybrids and isolation cells into the dossier of the receiver. */
final class ReportFiling implements Processor<String, ReportChange, String, byte[]> {
  private final WireFormat wire;
  private final Judge judge;
  private DossierDesk desk;

  ReportFiling(WireFormat wire, Judge judge) {
    this.wire = wire;
    this.judge = judge;
  }

  @Override
  public void init(ProcessorContext<String, byte[]> context) {
    desk = new DossierDesk(context, wire, judge);
  }

  @Override
  public void process(Record<String, ReportChange> record) {
    Subject subject = Subject.parse(record.key());
    desk.file(subject, record.value());
    desk.refresh(subject);
  }
}
