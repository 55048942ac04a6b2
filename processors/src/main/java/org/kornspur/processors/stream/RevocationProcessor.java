package org.kornspur.processors.stream;

import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;

/**
 * Notes that a fact is superseded, before or after it came, and tells the subjects that hold it.
 */
final class RevocationProcessor implements Processor<String, Revocation, String, SubjectMessage> {
  private ProcessorContext<String, SubjectMessage> context;
  private FactStore register;

  @Override
  public void init(ProcessorContext<String, SubjectMessage> context) {
    this.context = context;
    register = new FactStore(context);
  }

  @Override
  public void process(Record<String, Revocation> record) {
    Revocation revocation = record.value();
    if (!revocation.supersededFactId().equals(record.key())) {
      throw new IllegalArgumentException("A revocation of another fact than its key names");
    }
    for (String subject : register.revoke(revocation)) {
      context.forward(
          new Record<>(
              subject,
              new SubjectMessage.RevocationOf(
                  revocation.supersededFactId(), revocation.byFactId(), revocation.reason()),
              context.currentSystemTimeMs()),
          FactIntake.TO_SUBJECTS);
    }
  }
}
