package org.kornspur.processors.stream;

import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/** Puts a fact, or that it was superseded, into the dossier, and has the dossier judged again. */
final class FactFiling implements Processor<String, SubjectMessage, String, byte[]> {
  private final WireFormat wire;
  private final Judge judge;
  private DossierDesk desk;

  FactFiling(WireFormat wire, Judge judge) {
    this.wire = wire;
    this.judge = judge;
  }

  @Override
  public void init(ProcessorContext<String, byte[]> context) {
    desk = new DossierDesk(context, wire, judge);
  }

  @Override
  public void process(Record<String, SubjectMessage> record) {
    Subject subject = Subject.parse(record.key());
    desk.fileMessage(subject, record.value());
    desk.refresh(subject);
  }
}
