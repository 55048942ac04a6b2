package org.kornspur.processors.stream;

import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/**
 * Puts what comes for a subject into its dossier, and has the dossier judged again.
 *
 * @param <V> what comes: a message about a fact, or a report of another subject
 */
final class Filing<V> implements Processor<String, V, String, byte[]> {
  private final WireFormat wire;
  private final Judge judge;
  private final Drawer<V> drawer;
  private DossierDesk desk;

  /** Where on the desk a thing is filed. */
  @FunctionalInterface
  interface Drawer<V> {
    void file(DossierDesk desk, Subject subject, V value);
  }

  Filing(WireFormat wire, Judge judge, Drawer<V> drawer) {
    this.wire = wire;
    this.judge = judge;
    this.drawer = drawer;
  }

  @Override
  public void init(ProcessorContext<String, byte[]> context) {
    desk = new DossierDesk(context, wire, judge);
  }

  @Override
  public void process(Record<String, V> record) {
    Subject subject = Subject.parse(record.key());
    drawer.file(desk, subject, record.value());
    desk.refresh(subject);
  }
}
